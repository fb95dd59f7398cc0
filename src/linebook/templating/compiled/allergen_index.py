from jinja2.runtime import LoopContext, Macro, Markup, Namespace, TemplateNotFound, TemplateReference, TemplateRuntimeError, Undefined, escape, identity, internalcode, markup_join, missing, str_join
name = 'allergen_index.xml.j2'

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
    yield '" class="allergen-index" data-line="" data-page="portrait">\n  <header>\n    <p class="kicker">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'kicker')))
    yield '</p>\n    <h1>'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'title')))
    yield '</h1>\n    <p class="aside">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'menu')))
    yield '</p>\n  </header>\n  <p class="safety" data-key="how">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'how')))
    yield '</p>\n'
    for l_1_part in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'parts')):
        _loop_vars = {}
        pass
        if environment.getattr(l_1_part, 'rows'):
            pass
            yield '  <h2 data-key="'
            yield (environment.finalize(environment.getattr(l_1_part, 'key')))
            yield '">'
            yield (environment.finalize(environment.getattr(l_1_part, 'title')))
            yield '</h2>\n'
            if environment.getattr(l_1_part, 'note'):
                pass
                yield '<p class="safety" data-key="'
                yield (environment.finalize(environment.getattr(l_1_part, 'key')))
                yield '.note">'
                yield (environment.finalize(environment.getattr(l_1_part, 'note')))
                yield '</p>'
            yield '  <dl class="verdicts">\n'
            for l_2_row in t_1(environment.getattr(l_1_part, 'rows')):
                l_2_say = resolve('say')
                _loop_vars = {}
                pass
                yield '    <dt data-key="'
                yield (environment.finalize(environment.getattr(l_2_row, 'key')))
                yield '"><b>'
                yield (environment.finalize(environment.getattr(l_2_row, 'name')))
                yield (environment.finalize(environment.call(context, (undefined(name='say') if l_2_say is missing else l_2_say), 'list.reason', _loop_vars=_loop_vars)))
                yield '</b></dt><dd>'
                yield (environment.finalize(environment.getattr(l_2_row, 'dishes')))
                yield '</dd>\n'
            l_2_row = l_2_say = missing
            yield '  </dl>\n'
    l_1_part = missing
    yield '  <p class="caution" data-key="caution">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'caution')))
    yield '</p>\n</article>'

blocks = {}
debug_info = '2=19&4=21&5=23&6=25&8=27&9=29&10=32&11=35&12=39&14=47&15=52&20=63'