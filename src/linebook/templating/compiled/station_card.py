from jinja2.runtime import LoopContext, Macro, Markup, Namespace, TemplateNotFound, TemplateReference, TemplateRuntimeError, Undefined, escape, identity, internalcode, markup_join, missing, str_join
name = 'station_card.xml.j2'

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
    yield '" class="station-card" data-line="'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'line')))
    yield '" data-page="portrait">\n  <header>\n    <p class="kicker">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'kicker')))
    yield '</p>\n    <h1>'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'title')))
    yield '</h1>\n'
    if (environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'aside') or environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'menu_text')):
        pass
        yield '<p class="aside">'
        yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'menu_text')))
        if (environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'aside') and environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'menu_text')):
            pass
            yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'kicker.between')))
        yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'aside')))
        yield '</p>'
    yield '  </header>\n\n'
    if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'call'):
        pass
        yield '  <div class="split" data-left="60">\n    <div class="left"><p data-key="served">'
        yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'served')))
        yield '</p></div>\n    <div class="right"><p data-key="call">'
        yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'call')))
        yield '</p></div>\n  </div>\n'
    else:
        pass
        yield '  <p data-key="served">'
        yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'served')))
        yield '</p>\n'
    yield '\n'
    template = environment.get_template('part_allergens.xml.j2', 'station_card.xml.j2')
    gen = template.root_render_func(template.new_context(context.get_all(), True, {}))
    try:
        for event in gen:
            yield event
    finally: gen.close()
    yield '\n'
    if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'plate'):
        pass
        yield '  <div class="split" data-left="62">\n    <div class="left">\n'
        template = environment.get_template('part_elements.xml.j2', 'station_card.xml.j2')
        gen = template.root_render_func(template.new_context(context.get_all(), True, {}))
        try:
            for event in gen:
                yield event
        finally: gen.close()
        yield '    </div>\n    <div class="right">\n      <figure class="small" data-figure="'
        yield (environment.finalize(environment.getattr(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'plate'), 'name')))
        yield '" aria-label="'
        yield (environment.finalize(t_2(environment.getattr(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'plate'), 'alternative'))))
        yield '">\n        <figcaption>'
        yield (environment.finalize(environment.getattr(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'plate'), 'caption')))
        yield '</figcaption>\n      </figure>\n    </div>\n  </div>\n'
    else:
        pass
        template = environment.get_template('part_elements.xml.j2', 'station_card.xml.j2')
        gen = template.root_render_func(template.new_context(context.get_all(), True, {}))
        try:
            for event in gen:
                yield event
        finally: gen.close()
    if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'touches'):
        pass
        yield '  <dl class="plain"><dt data-key="fact.'
        yield (environment.finalize(environment.getattr(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'touches'), 'key')))
        yield '">'
        yield (environment.finalize(environment.getattr(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'touches'), 'label')))
        yield '</dt><dd>'
        yield (environment.finalize(environment.getattr(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'touches'), 'value')))
        yield '</dd></dl>\n'
    yield '\n'
    for l_1_section in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'pick_up')):
        _loop_vars = {}
        pass
        template = environment.get_template('part_section.xml.j2', 'station_card.xml.j2')
        gen = template.root_render_func(template.new_context(context.get_all(), True, {'section': l_1_section}))
        try:
            for event in gen:
                yield event
        finally: gen.close()
    l_1_section = missing
    yield '\n  <h3 data-key="asked">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'asked_label')))
    yield '</h3>\n  <dl class="verdicts">\n'
    l_1_loop = missing
    for l_1_verdict, l_1_loop in LoopContext(t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'verdicts')), undefined):
        _loop_vars = {}
        pass
        yield '    <dt data-key="verdict.'
        yield (environment.finalize(environment.getattr(l_1_verdict, 'key')))
        yield '"><b>'
        yield (environment.finalize(environment.getattr(l_1_verdict, 'action')))
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'list.reason', _loop_vars=_loop_vars)))
        yield '</b></dt>\n    <dd>\n'
        l_2_loop = missing
        for l_2_member, l_2_loop in LoopContext(t_1(environment.getattr(l_1_verdict, 'members')), undefined):
            _loop_vars = {}
            pass
            yield '      <span data-key="'
            yield (environment.finalize(environment.getattr(l_2_member, 'key')))
            yield '">'
            yield (environment.finalize(environment.getattr(l_2_member, 'text')))
            yield '</span>'
            if (not environment.getattr(l_2_loop, 'last')):
                pass
                yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'list.comma', _loop_vars=_loop_vars)))
        l_2_loop = l_2_member = missing
        yield '    </dd>\n'
    l_1_loop = l_1_verdict = missing
    yield '  </dl>\n\n'
    for l_1_section in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'sections')):
        _loop_vars = {}
        pass
        template = environment.get_template('part_section.xml.j2', 'station_card.xml.j2')
        gen = template.root_render_func(template.new_context(context.get_all(), True, {'section': l_1_section}))
        try:
            for event in gen:
                yield event
        finally: gen.close()
    l_1_section = missing
    yield '</article>'

blocks = {}
debug_info = '3=26&5=30&6=32&7=34&10=44&12=47&13=49&16=54&19=57&22=64&25=67&28=74&29=78&34=82&36=88&37=91&40=98&41=101&45=109&47=112&48=116&50=122&51=126&57=137&58=140'