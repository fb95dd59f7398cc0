from jinja2.runtime import LoopContext, Macro, Markup, Namespace, TemplateNotFound, TemplateReference, TemplateRuntimeError, Undefined, escape, identity, internalcode, markup_join, missing, str_join
name = 'set_up_sheet.xml.j2'

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
    yield '" class="set-up-sheet" data-line="'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'line')))
    yield '" data-page="portrait">\n  <header>\n    <p class="kicker">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'kicker')))
    yield '</p>\n    <h1>'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'title')))
    yield '</h1>\n    <p class="aside">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'aside')))
    yield '</p>\n  </header>\n'
    if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'facts'):
        pass
        yield '<p class="lead" data-key="facts">'
        yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'facts')))
        yield '</p>'
    yield '  <table class="list">\n    <colgroup>\n'
    if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'night'):
        pass
        yield '<col class="tick"/>'
    yield '<col class="name"/>'
    if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'night'):
        pass
        yield '<col class="figure"/>'
    yield '<col class="text"/>\n'
    for l_1_head in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'night_heads')):
        _loop_vars = {}
        pass
        yield '<col class="figure"/>'
    l_1_head = missing
    yield '<col class="text"/>\n    </colgroup>\n    <thead>\n      <tr data-key="heads">\n'
    if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'night'):
        pass
        yield '<th scope="col"></th>'
    yield '        <th scope="col">'
    yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'set-up.item')))
    yield '</th>\n'
    if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'night'):
        pass
        yield '<th scope="col">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'set-up.amount')))
        yield '</th>'
    yield '        <th scope="col">'
    yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'set-up.on-line')))
    yield '</th>\n'
    for l_1_head in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'night_heads')):
        _loop_vars = {}
        pass
        yield '<th scope="col">'
        yield (environment.finalize(l_1_head))
        yield '</th>'
    l_1_head = missing
    yield '        <th scope="col">'
    yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'set-up.waits-in')))
    yield '</th>\n      </tr>\n    </thead>\n    <tbody>\n'
    for l_1_group in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'groups')):
        _loop_vars = {}
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
            yield '">\n'
            if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'night'):
                pass
                yield '<td><span class="tick" data-count="1"></span></td>'
            yield '        <th scope="row">'
            yield (environment.finalize(environment.getattr(l_2_row, 'name')))
            if environment.getattr(l_2_row, 'note'):
                pass
                yield '<span class="note">'
                yield (environment.finalize(environment.getattr(l_2_row, 'note')))
                yield '</span>'
            yield '</th>\n'
            for l_3_amount in t_1(environment.getattr(l_2_row, 'amounts')):
                _loop_vars = {}
                pass
                yield '<td>'
                yield (environment.finalize(l_3_amount))
                yield '</td>'
            l_3_amount = missing
            yield '        <td>'
            yield (environment.finalize(environment.getattr(l_2_row, 'on_line')))
            yield '</td>\n'
            for l_3_figure in t_1(environment.getattr(l_2_row, 'behind')):
                _loop_vars = {}
                pass
                yield '<td>'
                if environment.getattr(l_2_row, 'asks'):
                    pass
                    yield '<span class="blank" data-width="2"></span>'
                else:
                    pass
                    yield (environment.finalize(l_3_figure))
                yield '</td>'
            l_3_figure = missing
            yield '        <td>'
            yield (environment.finalize(environment.getattr(l_2_row, 'waits_in')))
            yield '</td>\n      </tr>\n'
        l_2_row = missing
    l_1_group = missing
    yield '    </tbody>\n  </table>\n'
    if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'also'):
        pass
        yield '  <p data-key="also"><b>'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'set-up.also')))
        yield '</b> '
        l_1_loop = missing
        for l_1_member, l_1_loop in LoopContext(t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'also')), undefined):
            _loop_vars = {}
            pass
            yield '<span data-key="'
            yield (environment.finalize(environment.getattr(l_1_member, 'key')))
            yield '">'
            yield (environment.finalize(environment.getattr(l_1_member, 'text')))
            yield '</span>'
            if (not environment.getattr(l_1_loop, 'last')):
                pass
                yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'list.comma', _loop_vars=_loop_vars)))
        l_1_loop = l_1_member = missing
        yield '</p>\n'
    yield '  <p class="note" data-key="rule">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'rule')))
    yield '</p>\n'
    if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'unknown'):
        pass
        yield '<p class="note" data-key="unknown">'
        yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'unknown')))
        yield '</p>'
    if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'plates'):
        pass
        yield '  <h2 data-key="plates">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'set-up.plates')))
        yield '</h2>\n  <table class="list">\n    <colgroup><col class="name"/><col class="text"/>'
        for l_1_head in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'night_heads')):
            _loop_vars = {}
            pass
            yield '<col class="figure"/>'
        l_1_head = missing
        yield '</colgroup>\n    <thead>\n      <tr data-key="plate-heads">\n        <th scope="col">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'set-up.plate')))
        yield '</th>\n        <th scope="col">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'set-up.plate-for')))
        yield '</th>\n'
        for l_1_head in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'plate_heads')):
            _loop_vars = {}
            pass
            yield '<th scope="col">'
            yield (environment.finalize(l_1_head))
            yield '</th>'
        l_1_head = missing
        yield '      </tr>\n    </thead>\n    <tbody>\n'
        for l_1_row in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'plates')):
            _loop_vars = {}
            pass
            yield '      <tr data-key="'
            yield (environment.finalize(environment.getattr(l_1_row, 'key')))
            yield '">\n        <th scope="row">'
            yield (environment.finalize(environment.getattr(l_1_row, 'name')))
            yield '</th>\n        <td>'
            yield (environment.finalize(environment.getattr(l_1_row, 'dishes')))
            yield '</td>\n'
            for l_2_figure in t_1(environment.getattr(l_1_row, 'figures')):
                _loop_vars = {}
                pass
                yield '<td>'
                yield (environment.finalize(l_2_figure))
                yield '</td>'
            l_2_figure = missing
            yield '      </tr>\n'
        l_1_row = missing
        yield '    </tbody>\n  </table>\n'
    yield '</article>'

blocks = {}
debug_info = '3=20&5=24&6=26&7=28&9=30&12=36&13=44&17=50&18=54&19=56&20=62&21=64&22=72&26=74&27=78&28=84&29=88&30=90&31=94&32=101&33=109&34=111&35=124&41=129&42=132&44=149&45=151&46=156&47=159&49=161&52=167&53=169&54=171&58=179&59=183&60=185&61=187&62=189'