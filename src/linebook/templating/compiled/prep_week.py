from jinja2.runtime import LoopContext, Macro, Markup, Namespace, TemplateNotFound, TemplateReference, TemplateRuntimeError, Undefined, escape, identity, internalcode, markup_join, missing, str_join
name = 'prep_week.xml.j2'

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
    yield '" class="prep-week" data-line="'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'line')))
    yield '" data-page="landscape">\n  <header>\n    <p class="kicker">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'kicker')))
    yield '</p>\n    <h1>'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'title')))
    yield '</h1>\n    <p class="aside">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'aside')))
    yield '</p>\n  </header>\n'
    for l_1_figure in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'figures')):
        _loop_vars = {}
        pass
        yield '  <figure class="large" data-figure="'
        yield (environment.finalize(environment.getattr(l_1_figure, 'name')))
        yield '" aria-label="'
        yield (environment.finalize(environment.getattr(l_1_figure, 'alternative')))
        yield '">\n    <figcaption>'
        yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'caption')))
        yield '</figcaption>\n  </figure>\n'
    l_1_figure = missing
    yield '</article>'

blocks = {}
debug_info = '2=19&4=23&5=25&6=27&8=29&9=33&10=37'