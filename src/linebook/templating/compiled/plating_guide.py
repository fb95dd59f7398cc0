from jinja2.runtime import LoopContext, Macro, Markup, Namespace, TemplateNotFound, TemplateReference, TemplateRuntimeError, Undefined, escape, identity, internalcode, markup_join, missing, str_join
name = 'plating_guide.xml.j2'

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
    try:
        t_2 = environment.filters['plain']
    except KeyError:
        @internalcode
        def t_2(*unused):
            raise TemplateRuntimeError("No filter named 'plain' found.")
    pass
    yield '<article id="'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'id')))
    yield '" class="plating-guide" data-line="'
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
    yield '  </header>\n\n  <div class="split" data-left="40">\n    <div class="left"><p data-key="plate">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'plate_name')))
    yield '</p></div>\n    <div class="right"><p class="quiet" data-key="seen">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'seen')))
    yield '</p></div>\n  </div>\n\n'
    if (environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'side') or environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'photo')):
        pass
        yield '  <div class="split" data-left="58">\n    <div class="left">\n      <figure class="large" data-figure="'
        yield (environment.finalize(environment.getattr(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'figure'), 'name')))
        yield '" aria-label="'
        yield (environment.finalize(t_2(environment.getattr(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'figure'), 'alternative'))))
        yield '"></figure>\n    </div>\n    <div class="right">\n'
        if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'photo'):
            pass
            yield '      <figure class="photo" data-figure="'
            yield (environment.finalize(environment.getattr(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'photo'), 'name')))
            yield '" aria-label="'
            yield (environment.finalize(t_2(environment.getattr(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'photo'), 'alternative'))))
            yield '"></figure>\n'
        if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'side'):
            pass
            yield '      <figure class="large" data-figure="'
            yield (environment.finalize(environment.getattr(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'side'), 'name')))
            yield '" aria-label="'
            yield (environment.finalize(t_2(environment.getattr(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'side'), 'alternative'))))
            yield '"><figcaption>'
            yield (environment.finalize(environment.getattr(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'side'), 'caption')))
            yield '</figcaption></figure>\n'
        yield '    </div>\n  </div>\n'
    else:
        pass
        yield '  <figure class="large" data-figure="'
        yield (environment.finalize(environment.getattr(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'figure'), 'name')))
        yield '" aria-label="'
        yield (environment.finalize(t_2(environment.getattr(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'figure'), 'alternative'))))
        yield '"></figure>\n'
    yield '\n'
    template = environment.get_template('part_elements.xml.j2', 'plating_guide.xml.j2')
    gen = template.root_render_func(template.new_context(context.get_all(), True, {}))
    try:
        for event in gen:
            yield event
    finally: gen.close()
    yield '  <div class="split" data-left="50">\n    <div class="left"><p data-key="count">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'count')))
    yield '</p></div>\n    <div class="right">'
    if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'call'):
        pass
        yield '<p data-key="call">'
        yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'call')))
        yield '</p>'
    yield '</div>\n  </div>\n\n'
    for l_1_section in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'sections')):
        _loop_vars = {}
        pass
        template = environment.get_template('part_section.xml.j2', 'plating_guide.xml.j2')
        gen = template.root_render_func(template.new_context(context.get_all(), True, {'section': l_1_section}))
        try:
            for event in gen:
                yield event
        finally: gen.close()
    l_1_section = missing
    yield '\n'
    template = environment.get_template('part_allergens.xml.j2', 'plating_guide.xml.j2')
    gen = template.root_render_func(template.new_context(context.get_all(), True, {}))
    try:
        for event in gen:
            yield event
    finally: gen.close()
    yield '</article>'

blocks = {}
debug_info = '3=25&5=29&6=31&7=33&11=39&12=41&15=43&18=46&21=50&22=53&24=57&25=60&30=70&33=75&35=82&36=84&39=90&40=93&43=101'