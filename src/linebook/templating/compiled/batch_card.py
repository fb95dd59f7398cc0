from jinja2.runtime import LoopContext, Macro, Markup, Namespace, TemplateNotFound, TemplateReference, TemplateRuntimeError, Undefined, escape, identity, internalcode, markup_join, missing, str_join
name = 'batch_card.xml.j2'

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
    yield '" class="batch-card" data-line="'
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
    yield '  </header>\n\n  <div class="split" data-left="46">\n    <div class="left">\n      <p class="lead" data-key="makes">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'makes')))
    yield '</p>\n'
    if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'loads'):
        pass
        yield '<p data-key="loads">'
        yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'loads')))
        yield '</p>'
    yield '    </div>\n    <div class="right">\n      <dl class="plain">\n'
    for l_1_fact in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'keeping')):
        _loop_vars = {}
        pass
        yield '        <dt data-key="fact.'
        yield (environment.finalize(environment.getattr(l_1_fact, 'key')))
        yield '">'
        yield (environment.finalize(environment.getattr(l_1_fact, 'label')))
        yield '</dt><dd>'
        yield (environment.finalize(environment.getattr(l_1_fact, 'value')))
        yield '</dd>\n'
    l_1_fact = missing
    yield '      </dl>\n    </div>\n  </div>\n\n'
    if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'sizing'):
        pass
        yield '  <dl class="plain">\n'
        for l_1_fact in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'sizing')):
            _loop_vars = {}
            pass
            yield '    <dt data-key="fact.'
            yield (environment.finalize(environment.getattr(l_1_fact, 'key')))
            yield '">'
            yield (environment.finalize(environment.getattr(l_1_fact, 'label')))
            yield '</dt><dd>'
            yield (environment.finalize(environment.getattr(l_1_fact, 'value')))
            yield '</dd>\n'
        l_1_fact = missing
        yield '  </dl>\n'
    yield '\n'
    template = environment.get_template('part_allergens.xml.j2', 'batch_card.xml.j2')
    gen = template.root_render_func(template.new_context(context.get_all(), True, {}))
    try:
        for event in gen:
            yield event
    finally: gen.close()
    yield '\n  <dl class="plain">\n    <dt data-key="fact.'
    yield (environment.finalize(environment.getattr(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'made'), 'key')))
    yield '">'
    yield (environment.finalize(environment.getattr(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'made'), 'label')))
    yield '</dt><dd>'
    yield (environment.finalize(environment.getattr(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'made'), 'value')))
    l_1_loop = missing
    for l_1_row, l_1_loop in LoopContext(t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'got')), undefined):
        l_1_say = resolve('say')
        _loop_vars = {}
        pass
        yield '<span data-key="'
        yield (environment.finalize(environment.getattr(l_1_row, 'key')))
        yield '">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_1_say is missing else l_1_say), 'list.semicolon', _loop_vars=_loop_vars)))
        if environment.getattr(l_1_row, 'name'):
            pass
            yield (environment.finalize(environment.getattr(l_1_row, 'name')))
            yield ' '
        l_2_loop = missing
        for l_2_cell, l_2_loop in LoopContext(t_1(environment.getattr(l_1_row, 'cells')), undefined):
            _loop_vars = {}
            pass
            yield (environment.finalize(environment.getattr(l_2_cell, 'before')))
            yield '&#160;<span class="blank" data-width="'
            yield (environment.finalize(environment.getattr(l_2_cell, 'width')))
            yield '"></span> <i>'
            yield (environment.finalize(environment.getattr(l_2_cell, 'after')))
            yield '</i>'
            if (not environment.getattr(l_2_loop, 'last')):
                pass
                yield (environment.finalize(environment.call(context, (undefined(name='say') if l_1_say is missing else l_1_say), 'list.comma', _loop_vars=_loop_vars)))
        l_2_loop = l_2_cell = missing
        yield '</span>'
    l_1_loop = l_1_row = l_1_say = missing
    yield '</dd>\n'
    for l_1_fact in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'facts')):
        _loop_vars = {}
        pass
        yield '    <dt data-key="fact.'
        yield (environment.finalize(environment.getattr(l_1_fact, 'key')))
        yield '">'
        yield (environment.finalize(environment.getattr(l_1_fact, 'label')))
        yield '</dt><dd>'
        yield (environment.finalize(environment.getattr(l_1_fact, 'value')))
        yield '</dd>\n'
    l_1_fact = missing
    yield '  </dl>\n\n  <table class="ingredients">\n    <colgroup>\n'
    if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'night'):
        pass
        yield '<col class="tick"/>'
    t_2 = 1
    for l_1_head in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'night_heads')):
        _loop_vars = {}
        pass
        yield '<col class="figure"/>'
        t_2 = 0
    l_1_head = missing
    if t_2:
        pass
        yield '<col class="amount"/><col class="unit"/>'
    yield '      <col class="name"/>\n'
    for l_1_head in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'after_heads')):
        _loop_vars = {}
        pass
        yield '<col class="figure"/>'
    l_1_head = missing
    yield '    </colgroup>\n    <thead>\n      <tr data-key="heads">\n'
    if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'night'):
        pass
        yield '<td></td>'
    t_3 = 1
    for l_1_head in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'night_heads')):
        _loop_vars = {}
        pass
        yield '        <th scope="col">'
        yield (environment.finalize(l_1_head))
        yield '</th>\n'
        t_3 = 0
    l_1_head = missing
    if t_3:
        pass
        yield '        <th scope="col" colspan="2">'
        yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'main_head')))
        yield '</th>\n'
    yield '        <th scope="col">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'names_head')))
    yield '</th>\n'
    for l_1_head in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'after_heads')):
        _loop_vars = {}
        pass
        yield '<th scope="col">'
        yield (environment.finalize(l_1_head))
        yield '</th>'
    l_1_head = missing
    yield '      </tr>\n    </thead>\n    <tbody>\n'
    for l_1_group in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'groups')):
        _loop_vars = {}
        pass
        if environment.getattr(l_1_group, 'title'):
            pass
            yield '      <tr class="group" data-key="'
            yield (environment.finalize(environment.getattr(l_1_group, 'key')))
            yield '"><th colspan="'
            yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'columns')))
            yield '">'
            yield (environment.finalize(environment.getattr(l_1_group, 'title')))
            if environment.getattr(l_1_group, 'loads'):
                pass
                yield '<span class="note">'
                yield (environment.finalize(environment.getattr(l_1_group, 'loads')))
                yield '</span>'
            yield '</th></tr>\n'
        for l_2_row in t_1(environment.getattr(l_1_group, 'rows')):
            _loop_vars = {}
            pass
            yield '      <tr data-key="'
            yield (environment.finalize(environment.getattr(l_2_row, 'key')))
            yield '">\n'
            if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'night'):
                pass
                yield '<td>'
                if environment.getattr(l_2_row, 'ticks'):
                    pass
                    yield '<span class="tick" data-count="'
                    yield (environment.finalize(environment.getattr(l_2_row, 'ticks')))
                    yield '"></span>'
                yield '</td>'
            t_4 = 1
            for l_3_figure in t_1(environment.getattr(l_2_row, 'nights')):
                _loop_vars = {}
                pass
                yield '        <td>'
                yield (environment.finalize(l_3_figure))
                yield '</td>\n'
                t_4 = 0
            l_3_figure = missing
            if t_4:
                pass
                if environment.getattr(l_2_row, 'unit'):
                    pass
                    yield '<td>'
                    yield (environment.finalize(environment.getattr(l_2_row, 'number')))
                    yield '</td><td>'
                    yield (environment.finalize(environment.getattr(l_2_row, 'unit')))
                    yield '</td>'
                else:
                    pass
                    yield '<td colspan="2">'
                    yield (environment.finalize(environment.getattr(l_2_row, 'number')))
                    yield '</td>'
            yield '        <th scope="row">'
            yield (environment.finalize(environment.getattr(l_2_row, 'name')))
            if (environment.getattr(l_2_row, 'note') or environment.getattr(l_2_row, 'ticks_under')):
                pass
                yield '<span class="note">'
                if environment.getattr(l_2_row, 'ticks_under'):
                    pass
                    yield '<span class="tick" data-count="'
                    yield (environment.finalize(environment.getattr(l_2_row, 'ticks_under')))
                    yield '"></span> '
                yield (environment.finalize(environment.getattr(l_2_row, 'note')))
                yield '</span>'
            yield '</th>\n'
            for l_3_figure in t_1(environment.getattr(l_2_row, 'after')):
                _loop_vars = {}
                pass
                yield '<td><span class="quiet">'
                yield (environment.finalize(l_3_figure))
                yield '</span></td>'
            l_3_figure = missing
            yield '      </tr>\n'
        l_2_row = missing
    l_1_group = missing
    yield '    </tbody>\n  </table>\n'
    if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'also'):
        pass
        yield '  <dl class="plain">\n'
        for l_1_fact in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'also')):
            _loop_vars = {}
            pass
            yield '    <dt data-key="fact.'
            yield (environment.finalize(environment.getattr(l_1_fact, 'key')))
            yield '">'
            yield (environment.finalize(environment.getattr(l_1_fact, 'label')))
            yield '</dt><dd>'
            yield (environment.finalize(environment.getattr(l_1_fact, 'value')))
            yield '</dd>\n'
        l_1_fact = missing
        yield '  </dl>\n'
    yield '\n'
    for l_1_section in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'stages')):
        _loop_vars = {}
        pass
        template = environment.get_template('part_section.xml.j2', 'batch_card.xml.j2')
        gen = template.root_render_func(template.new_context(context.get_all(), True, {'section': l_1_section}))
        try:
            for event in gen:
                yield event
        finally: gen.close()
        if environment.getattr(l_1_section, 'limit'):
            pass
            template = environment.get_template('part_limit.xml.j2', 'batch_card.xml.j2')
            gen = template.root_render_func(template.new_context(context.get_all(), True, {'section': l_1_section}))
            try:
                for event in gen:
                    yield event
            finally: gen.close()
    l_1_section = missing
    yield '\n  <hr/>\n'
    for l_1_section in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'sections')):
        _loop_vars = {}
        pass
        template = environment.get_template('part_section.xml.j2', 'batch_card.xml.j2')
        gen = template.root_render_func(template.new_context(context.get_all(), True, {'section': l_1_section}))
        try:
            for event in gen:
                yield event
        finally: gen.close()
    l_1_section = missing
    yield '\n  <dl class="plain">\n'
    for l_1_fact in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'about')):
        _loop_vars = {}
        pass
        yield '    <dt data-key="fact.'
        yield (environment.finalize(environment.getattr(l_1_fact, 'key')))
        yield '">'
        yield (environment.finalize(environment.getattr(l_1_fact, 'label')))
        yield '</dt><dd>'
        yield (environment.finalize(environment.getattr(l_1_fact, 'value')))
        yield '</dd>\n'
    l_1_fact = missing
    yield '  </dl>\n</article>'

blocks = {}
debug_info = '4=19&6=23&7=25&8=27&14=33&15=35&19=41&20=45&26=53&28=56&29=60&34=69&38=76&39=111&40=115&49=123&50=127&52=137&56=143&57=147&58=151&60=158&62=161&63=163&67=171&68=174&69=177&71=188&72=192&73=194&74=204&75=208&77=214&79=227&80=239&86=250&88=253&89=257&95=266&96=269&97=275&101=285&102=288&107=296&108=300'