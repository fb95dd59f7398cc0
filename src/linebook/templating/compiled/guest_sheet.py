from jinja2.runtime import LoopContext, Macro, Markup, Namespace, TemplateNotFound, TemplateReference, TemplateRuntimeError, Undefined, escape, identity, internalcode, markup_join, missing, str_join
name = 'guest_sheet.xml.j2'

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
    pass
    yield '<article id="'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'id')))
    yield '" class="guest-sheet" data-line="" data-page="portrait">\n  <header>\n    <p class="kicker">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'kicker')))
    yield '</p>\n    <h1>'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'title')))
    yield '</h1>\n    <p class="aside">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'aside')))
    yield '</p>\n  </header>\n\n  <dl class="plain">\n'
    if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'blank_table'):
        pass
        yield '    <dt data-key="fact.table">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'guest.table.blank')))
        yield '</dt><dd><span class="blank" data-width="8"></span>'
        if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'blank_seat'):
            pass
            yield '&#160;'
            yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'guest.seat.blank')))
            yield '&#160;<span class="blank" data-width="8"></span>'
        yield '</dd>\n'
    elif environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'blank_seat'):
        pass
        yield '    <dt data-key="fact.seat">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'guest.seat.blank')))
        yield '</dt><dd><span class="blank" data-width="8"></span></dd>\n'
    yield '    <dt data-key="fact.taken-by">'
    yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'guest.taken-by')))
    yield '</dt><dd><span class="blank" data-width="14"></span>&#160;'
    yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'guest.at-time')))
    yield '&#160;<span class="blank" data-width="6"></span></dd>\n  </dl>\n\n'
    if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'tables'):
        pass
        for l_1_seat in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'seats')):
            _loop_vars = {}
            pass
            yield '  <h3 data-key="'
            yield (environment.finalize(environment.getattr(l_1_seat, 'key')))
            yield '.asked">'
            yield (environment.finalize(environment.getattr(l_1_seat, 'title')))
            yield '</h3>\n'
            template = environment.get_template('part_asked.xml.j2', 'guest_sheet.xml.j2')
            gen = template.root_render_func(template.new_context(context.get_all(), True, {'seat': l_1_seat}))
            try:
                for event in gen:
                    yield event
            finally: gen.close()
        l_1_seat = missing
        if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'none_left'):
            pass
            yield '<p class="safety" data-key="none-left"><b>'
            yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'none_left')))
            yield '</b></p>'
        yield '  <h2 data-key="changes">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'guest.pass-changes')))
        yield '</h2>\n  <dl class="verdicts">\n'
        for l_1_fact in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'changes')):
            _loop_vars = {}
            pass
            yield '    <dt data-key="'
            yield (environment.finalize(environment.getattr(l_1_fact, 'key')))
            yield '"><b>'
            yield (environment.finalize(environment.getattr(l_1_fact, 'label')))
            yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'list.reason', _loop_vars=_loop_vars)))
            yield '</b></dt><dd>'
            yield (environment.finalize(environment.getattr(l_1_fact, 'value')))
            yield '</dd>\n'
        l_1_fact = missing
        yield '  </dl>\n'
        for l_1_table in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'tables')):
            _loop_vars = {}
            pass
            yield '  <table class="seats">\n    <colgroup><col class="name"/>'
            for l_2_head in t_1(environment.getattr(l_1_table, 'heads')):
                _loop_vars = {}
                pass
                yield '<col class="text"/>'
            l_2_head = missing
            yield '</colgroup>\n    <thead>\n      <tr data-key="'
            yield (environment.finalize(environment.getattr(l_1_table, 'key')))
            yield '">\n        <th scope="col">'
            yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'guest.dish', _loop_vars=_loop_vars)))
            yield '</th>\n'
            for l_2_head in t_1(environment.getattr(l_1_table, 'heads')):
                _loop_vars = {}
                pass
                yield '<th scope="col">'
                yield (environment.finalize(l_2_head))
                yield '</th>'
            l_2_head = missing
            yield '      </tr>\n    </thead>\n    <tbody>\n'
            for l_2_row in t_1(environment.getattr(l_1_table, 'rows')):
                _loop_vars = {}
                pass
                if environment.getattr(l_2_row, 'cells'):
                    pass
                    yield '      <tr data-key="'
                    yield (environment.finalize(environment.getattr(l_2_row, 'key')))
                    yield '">\n        <th scope="row">'
                    yield (environment.finalize(environment.getattr(l_2_row, 'name')))
                    yield '</th>\n'
                    for l_3_cell in t_1(environment.getattr(l_2_row, 'cells')):
                        _loop_vars = {}
                        pass
                        yield '<td><b>'
                        yield (environment.finalize(l_3_cell))
                        yield '</b></td>'
                    l_3_cell = missing
                    yield '      </tr>\n'
                else:
                    pass
                    yield '      <tr class="group" data-key="'
                    yield (environment.finalize(environment.getattr(l_2_row, 'key')))
                    yield '"><th colspan="'
                    yield (environment.finalize(environment.getattr(l_1_table, 'width')))
                    yield '">'
                    yield (environment.finalize(environment.getattr(l_2_row, 'name')))
                    yield '</th></tr>\n'
            l_2_row = missing
            yield '    </tbody>\n  </table>\n'
        l_1_table = missing
        yield '  <p class="safety" data-key="listed"><b>'
        yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'listed')))
        yield '</b></p>\n'
        template = environment.get_template('part_pass.xml.j2', 'guest_sheet.xml.j2')
        gen = template.root_render_func(template.new_context(context.get_all(), True, {}))
        try:
            for event in gen:
                yield event
        finally: gen.close()
    yield '\n'
    for l_1_seat in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'seats')):
        _loop_vars = {}
        pass
        if (not environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'tables')):
            pass
            yield '  <p class="lead" data-key="'
            yield (environment.finalize(environment.getattr(l_1_seat, 'key')))
            yield '">'
            yield (environment.finalize(environment.getattr(l_1_seat, 'title')))
            yield '</p>\n'
            template = environment.get_template('part_asked.xml.j2', 'guest_sheet.xml.j2')
            gen = template.root_render_func(template.new_context(context.get_all(), True, {'seat': l_1_seat}))
            try:
                for event in gen:
                    yield event
            finally: gen.close()
        if (environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'none_left') and (not environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'tables'))):
            pass
            yield '<p class="lead" data-key="none-left">'
            yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'none_left')))
            yield '</p>'
        if environment.getattr(l_1_seat, 'groups'):
            pass
            yield '  <table class="seats">\n    <colgroup><col class="text"/><col class="name"/><col class="text"/></colgroup>\n'
            if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'tables'):
                pass
                yield '<thead><tr data-key="'
                yield (environment.finalize(environment.getattr(l_1_seat, 'key')))
                yield '"><th scope="col" colspan="3">'
                yield (environment.finalize(environment.getattr(l_1_seat, 'title')))
                yield '</th></tr></thead>'
            yield '    <tbody>\n'
            for l_2_group in t_1(environment.getattr(l_1_seat, 'groups')):
                _loop_vars = {}
                pass
                yield '      <tr class="group" data-key="'
                yield (environment.finalize(environment.getattr(l_1_seat, 'key')))
                yield '.'
                yield (environment.finalize(environment.getattr(l_2_group, 'key')))
                yield '"><th colspan="3">'
                yield (environment.finalize(environment.getattr(l_2_group, 'title')))
                yield '</th></tr>\n'
                for l_3_row in t_1(environment.getattr(l_2_group, 'rows')):
                    _loop_vars = {}
                    pass
                    yield '      <tr data-key="'
                    yield (environment.finalize(environment.getattr(l_1_seat, 'key')))
                    yield '.'
                    yield (environment.finalize(environment.getattr(l_3_row, 'key')))
                    yield '">\n        <td>'
                    yield (environment.finalize(environment.getattr(l_3_row, 'course')))
                    yield '</td>\n'
                    if environment.getattr(l_3_row, 'action'):
                        pass
                        yield '        <th scope="row"><b>'
                        yield (environment.finalize(environment.getattr(l_3_row, 'dish')))
                        yield '</b></th>\n        <td><b>'
                        yield (environment.finalize(environment.getattr(l_3_row, 'action')))
                        yield '</b>'
                        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'guest.stop', _loop_vars=_loop_vars)))
                        yield (environment.finalize(environment.getattr(l_3_row, 'reason')))
                        yield '</td>\n'
                    else:
                        pass
                        yield '        <th scope="row" colspan="2"><b>'
                        yield (environment.finalize(environment.getattr(l_3_row, 'dish')))
                        yield '</b>'
                        if environment.getattr(l_3_row, 'reason'):
                            pass
                            yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'guest.stop', _loop_vars=_loop_vars)))
                            yield (environment.finalize(environment.getattr(l_3_row, 'reason')))
                        yield '</th>\n'
                    yield '      </tr>\n'
                l_3_row = missing
            l_2_group = missing
            yield '    </tbody>\n  </table>\n'
    l_1_seat = missing
    if (not environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'tables')):
        pass
        yield '  <p class="safety" data-key="listed"><b>'
        yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'listed')))
        yield '</b></p>\n'
        template = environment.get_template('part_pass.xml.j2', 'guest_sheet.xml.j2')
        gen = template.root_render_func(template.new_context(context.get_all(), True, {}))
        try:
            for event in gen:
                yield event
        finally: gen.close()
    yield '</article>'

blocks = {}
debug_info = '3=20&5=22&6=24&7=26&12=28&13=31&14=39&15=42&17=45&21=49&22=51&23=55&24=59&26=66&27=72&29=74&30=78&33=87&35=91&37=97&38=99&39=101&43=109&44=112&45=115&46=117&47=119&50=130&56=140&57=142&62=149&63=152&64=155&65=159&67=165&68=170&71=173&73=181&74=185&75=191&76=195&77=199&78=201&79=204&80=206&82=214&91=226&92=229&93=231'