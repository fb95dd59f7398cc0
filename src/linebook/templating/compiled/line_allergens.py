from jinja2.runtime import LoopContext, Macro, Markup, Namespace, TemplateNotFound, TemplateReference, TemplateRuntimeError, Undefined, escape, identity, internalcode, markup_join, missing, str_join
name = 'line_allergens.xml.j2'

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
    yield '" class="line-allergens" data-line="'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'line')))
    yield '" data-page="portrait">\n  <header>\n    <p class="kicker">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'kicker')))
    yield '</p>\n    <h1>'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'title')))
    yield '</h1>\n    <p class="aside">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'aside')))
    yield '</p>\n  </header>\n\n  <div class="box caution" data-key="ticket">\n    <h3 data-key="ticket.title">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'ticket_title')))
    yield '</h3>\n    <ul>\n'
    for l_1_step in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'ticket')):
        _loop_vars = {}
        pass
        yield '      <li data-key="'
        yield (environment.finalize(environment.getattr(l_1_step, 'key')))
        yield '">'
        yield (environment.finalize(environment.getattr(l_1_step, 'text')))
        yield '</li>\n'
    l_1_step = missing
    yield '    </ul>\n  </div>\n\n  <table class="matrix">\n    <colgroup><col class="name"/>'
    for l_1_column in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'columns')):
        _loop_vars = {}
        pass
        yield '<col class="mark"/>'
    l_1_column = missing
    yield '</colgroup>\n    <thead>\n      <tr data-key="heads">\n        <th scope="col">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'head')))
    yield '</th>\n'
    for l_1_column in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'columns')):
        _loop_vars = {}
        pass
        yield '<th scope="col">'
        yield (environment.finalize(environment.getattr(l_1_column, 'text')))
        yield '</th>'
    l_1_column = missing
    yield '      </tr>\n    </thead>\n    <tbody>\n'
    for l_1_group in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'groups')):
        _loop_vars = {}
        pass
        if environment.getattr(l_1_group, 'title'):
            pass
            yield '      <tr class="group" data-key="group.'
            yield (environment.finalize(environment.getattr(l_1_group, 'key')))
            yield '"><th colspan="'
            yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'width')))
            yield '">'
            yield (environment.finalize(environment.getattr(l_1_group, 'title')))
            yield '</th></tr>\n'
        for l_2_row in t_1(environment.getattr(l_1_group, 'rows')):
            _loop_vars = {}
            pass
            yield '      <tr data-key="'
            yield (environment.finalize(environment.getattr(l_2_row, 'key')))
            yield '">\n        <th scope="row">'
            yield (environment.finalize(environment.getattr(l_2_row, 'name')))
            yield '</th>\n'
            for l_3_cell in t_1(environment.getattr(l_2_row, 'cells')):
                _loop_vars = {}
                pass
                yield '<td><span class="'
                yield (environment.finalize(environment.getattr(l_3_cell, 'mark')))
                yield '">'
                yield (environment.finalize(environment.getattr(l_3_cell, 'word')))
                yield '</span></td>'
            l_3_cell = missing
            yield '      </tr>\n'
        l_2_row = missing
    l_1_group = missing
    yield '    </tbody>\n  </table>\n'
    if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'absent'):
        pass
        yield '<p class="safety" data-key="absent">'
        yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'absent')))
        yield '</p>'
    yield '  <dl class="legend">\n'
    for l_1_entry in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'legend')):
        _loop_vars = {}
        pass
        yield '    <dt data-key="legend.'
        yield (environment.finalize(environment.getattr(l_1_entry, 'mark')))
        yield '"><span class="'
        yield (environment.finalize(environment.getattr(l_1_entry, 'mark')))
        yield '">'
        yield (environment.finalize(environment.getattr(l_1_entry, 'word')))
        yield '</span></dt><dd>'
        yield (environment.finalize(environment.getattr(l_1_entry, 'word')))
        yield '</dd>\n'
    l_1_entry = missing
    yield '    <dt data-key="legend.leave">'
    for l_1_entry in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'leaves')):
        _loop_vars = {}
        pass
        yield '<span class="'
        yield (environment.finalize(environment.getattr(l_1_entry, 'mark')))
        yield '">'
        yield (environment.finalize(environment.getattr(l_1_entry, 'word')))
        yield '</span>'
    l_1_entry = missing
    yield '</dt><dd>'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'leaves_word')))
    yield '</dd>\n  </dl>\n\n'
    if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'changes'):
        pass
        yield '  <h2 data-key="changes">'
        yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'changes_title')))
        yield '</h2>\n'
        l_1_loop = missing
        for l_1_plate, l_1_loop in LoopContext(t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'changes')), undefined):
            _loop_vars = {}
            pass
            yield '  <h3 data-key="'
            yield (environment.finalize(environment.getattr(l_1_plate, 'key')))
            yield '">'
            yield (environment.finalize(environment.getattr(l_1_plate, 'title')))
            yield '</h3>\n  <dl class="verdicts">\n'
            l_2_loop = missing
            for l_2_verdict, l_2_loop in LoopContext(t_1(environment.getattr(l_1_plate, 'verdicts')), undefined):
                l_2_say = resolve('say')
                _loop_vars = {}
                pass
                yield '    <dt data-key="'
                yield (environment.finalize(environment.getattr(l_1_plate, 'key')))
                yield '.'
                yield (environment.finalize(environment.getattr(l_2_verdict, 'key')))
                yield '"><b>'
                yield (environment.finalize(environment.getattr(l_2_verdict, 'action')))
                yield (environment.finalize(environment.call(context, (undefined(name='say') if l_2_say is missing else l_2_say), 'list.reason', _loop_vars=_loop_vars)))
                yield '</b></dt>\n    <dd>'
                l_3_loop = missing
                for l_3_member, l_3_loop in LoopContext(t_1(environment.getattr(l_2_verdict, 'members')), undefined):
                    _loop_vars = {}
                    pass
                    yield '<span data-key="'
                    yield (environment.finalize(environment.getattr(l_3_member, 'key')))
                    yield '">'
                    yield (environment.finalize(environment.getattr(l_3_member, 'text')))
                    yield '</span>'
                    if (not environment.getattr(l_3_loop, 'last')):
                        pass
                        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_2_say is missing else l_2_say), 'list.comma', _loop_vars=_loop_vars)))
                l_3_loop = l_3_member = missing
                yield '</dd>\n'
            l_2_loop = l_2_verdict = l_2_say = missing
            yield '  </dl>\n'
        l_1_loop = l_1_plate = missing
    yield '\n'
    if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'media'):
        pass
        yield '  <h2 data-key="media">'
        yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'media_title')))
        yield '</h2>\n  <dl class="plain">\n'
        for l_1_fact in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'media')):
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
        yield '  </dl>\n'
    yield '  <p class="caution" data-key="caution">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'caution')))
    yield '</p>\n</article>'

blocks = {}
debug_info = '3=19&5=23&6=25&7=27&11=29&13=31&14=35&20=41&23=47&24=49&28=57&29=60&30=63&32=69&33=73&34=75&35=77&41=90&43=96&44=100&46=110&49=122&50=125&51=128&52=132&54=137&55=142&56=150&62=167&63=170&65=172&66=176&70=185'