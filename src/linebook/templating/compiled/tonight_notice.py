from jinja2.runtime import LoopContext, Macro, Markup, Namespace, TemplateNotFound, TemplateReference, TemplateRuntimeError, Undefined, escape, identity, internalcode, markup_join, missing, str_join
name = 'tonight_notice.xml.j2'

def root(context, missing=missing, environment=environment):
    resolve = context.resolve_or_missing
    undefined = environment.undefined
    concat = environment.concat
    cond_expr_undefined = Undefined
    if 0: yield None
    l_0_sheet = resolve('sheet')
    try:
        t_1 = environment.filters['gone over']
    except KeyError:
        @internalcode
        def t_1(*unused):
            raise TemplateRuntimeError("No filter named 'gone over' found.")
    pass
    yield '<article id="'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'id')))
    yield '" class="tonight-notice" data-line="" data-page="portrait">\n  <header><h1>'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'title')))
    yield '</h1></header>\n  <div class="box caution" data-key="tonight">\n'
    for l_1_member in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'brings')):
        _loop_vars = {}
        pass
        yield '<h2 data-key="tonight.'
        yield (environment.finalize(environment.getattr(l_1_member, 'key')))
        yield '">'
        yield (environment.finalize(environment.getattr(l_1_member, 'text')))
        yield '</h2>'
    l_1_member = missing
    for l_1_member in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'instead')):
        _loop_vars = {}
        pass
        yield '<p class="safety" data-key="tonight.'
        yield (environment.finalize(environment.getattr(l_1_member, 'key')))
        yield '">'
        yield (environment.finalize(environment.getattr(l_1_member, 'text')))
        yield '</p>'
    l_1_member = missing
    for l_1_member in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'fewer')):
        _loop_vars = {}
        pass
        yield '<p class="safety" data-key="tonight.'
        yield (environment.finalize(environment.getattr(l_1_member, 'key')))
        yield '">'
        yield (environment.finalize(environment.getattr(l_1_member, 'text')))
        yield '</p>'
    l_1_member = missing
    yield '  </div>\n</article>'

blocks = {}
debug_info = '3=19&4=21&6=23&7=32&8=41'