from jinja2.runtime import LoopContext, Macro, Markup, Namespace, TemplateNotFound, TemplateReference, TemplateRuntimeError, Undefined, escape, identity, internalcode, markup_join, missing, str_join
name = 'cutting_plan.xml.j2'

def root(context, missing=missing, environment=environment):
    resolve = context.resolve_or_missing
    undefined = environment.undefined
    concat = environment.concat
    cond_expr_undefined = Undefined
    if 0: yield None
    l_0_sheet = resolve('sheet')
    l_0_say = resolve('say')
    try:
        t_1 = environment.filters['gone over']
    except KeyError:
        @internalcode
        def t_1(*unused):
            raise TemplateRuntimeError("No filter named 'gone over' found.")
    try:
        t_2 = environment.filters['plain']
    except KeyError:
        @internalcode
        def t_2(*unused):
            raise TemplateRuntimeError("No filter named 'plain' found.")
    pass
    yield '<article id="'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'id')))
    yield '" class="cutting-plan" data-line="'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'line')))
    yield '" data-page="portrait">\n  <header>\n    <p class="kicker">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'kicker')))
    yield '</p>\n    <h1>'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'title')))
    yield '</h1>\n'
    if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'aside'):
        pass
        yield '<p class="aside">'
        yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'aside')))
        yield '</p>'
    yield '  </header>\n  <p class="lead" data-key="lead">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'lead')))
    yield '</p>\n  <p data-key="block">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'block')))
    yield '</p>\n\n  <figure class="large" data-figure="'
    yield (environment.finalize(environment.getattr(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'figure'), 'name')))
    yield '" aria-label="'
    yield (environment.finalize(t_2(environment.getattr(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'figure'), 'alternative'))))
    yield '"><figcaption>'
    yield (environment.finalize(environment.getattr(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'figure'), 'caption')))
    yield '</figcaption></figure>\n\n  <h2 data-key="cut">'
    yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'cutting.steps')))
    yield '</h2>\n  <ol>\n'
    for l_1_step in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'steps')):
        _loop_vars = {}
        pass
        yield '    <li data-key="'
        yield (environment.finalize(environment.getattr(l_1_step, 'key')))
        yield '">'
        yield (environment.finalize(environment.getattr(l_1_step, 'text')))
        yield '</li>\n'
    l_1_step = missing
    yield '  </ol>\n\n  <table class="list">\n    <colgroup><col class="name"/>'
    for l_1_head in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'heads')):
        _loop_vars = {}
        pass
        yield '<col class="figure"/>'
    l_1_head = missing
    yield '</colgroup>\n    <thead>\n      <tr data-key="heads">\n        <th scope="col">'
    yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'cutting.for')))
    yield '</th>\n'
    for l_1_head in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'heads')):
        _loop_vars = {}
        pass
        yield '<th scope="col">'
        yield (environment.finalize(l_1_head))
        yield '</th>'
    l_1_head = missing
    yield '      </tr>\n    </thead>\n    <tbody>\n'
    for l_1_row in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'rows')):
        _loop_vars = {}
        pass
        yield '      <tr data-key="'
        yield (environment.finalize(environment.getattr(l_1_row, 'key')))
        yield '">\n        <th scope="row">'
        yield (environment.finalize(environment.getattr(l_1_row, 'name')))
        yield '</th>\n'
        for l_2_figure in t_1(environment.getattr(l_1_row, 'figures')):
            _loop_vars = {}
            pass
            yield '<td>'
            yield (environment.finalize(l_2_figure))
            yield '</td>'
        l_2_figure = missing
        yield '      </tr>\n'
    l_1_row = missing
    yield '    </tbody>\n  </table>\n\n  <dl class="plain">\n'
    for l_1_fact in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'facts')):
        _loop_vars = {}
        pass
        yield '    <dt data-key="'
        yield (environment.finalize(environment.getattr(l_1_fact, 'key')))
        yield '">'
        yield (environment.finalize(environment.getattr(l_1_fact, 'label')))
        yield '</dt><dd>'
        yield (environment.finalize(environment.getattr(l_1_fact, 'value')))
        yield '</dd>\n'
    l_1_fact = missing
    yield '  </dl>\n</article>'

blocks = {}
debug_info = '3=26&5=30&6=32&7=34&9=40&10=42&12=44&14=50&16=52&17=56&22=62&25=68&26=70&30=78&31=82&32=84&33=86&40=96&41=100'