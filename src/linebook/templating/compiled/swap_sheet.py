from jinja2.runtime import LoopContext, Macro, Markup, Namespace, TemplateNotFound, TemplateReference, TemplateRuntimeError, Undefined, escape, identity, internalcode, markup_join, missing, str_join
name = 'swap_sheet.xml.j2'

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
    yield '" class="swap-sheet" data-line="'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'line')))
    yield '" data-page="portrait">\n  <header>\n    <p class="kicker">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'kicker')))
    yield '</p>\n    <h1>'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'title')))
    yield '</h1>\n    <p class="aside">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'aside')))
    yield '</p>\n  </header>\n  <p class="quiet" data-key="lead">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'lead')))
    yield '</p>\n\n'
    if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'gone'):
        pass
        yield '<p class="lead" data-key="gone">'
        yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'gone')))
        yield '</p>'
    yield '\n'
    if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'alerts'):
        pass
        if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'boxed'):
            pass
            yield '  <div class="box caution" data-key="alerts">\n    <h3 data-key="alerts.title">'
            yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'alerts_title')))
            yield '</h3>\n    <ul>\n'
            for l_1_point in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'alerts')):
                _loop_vars = {}
                pass
                yield '<li data-key="'
                yield (environment.finalize(environment.getattr(l_1_point, 'key')))
                yield '">'
                yield (environment.finalize(environment.getattr(l_1_point, 'text')))
                yield '</li>'
            l_1_point = missing
            yield '    </ul>\n  </div>\n'
        else:
            pass
            yield '  <h2 data-key="alerts.title">'
            yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'alerts_title')))
            yield '</h2>\n  <ul>\n'
            for l_1_point in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'alerts')):
                _loop_vars = {}
                pass
                yield '<li data-key="'
                yield (environment.finalize(environment.getattr(l_1_point, 'key')))
                yield '">'
                yield (environment.finalize(environment.getattr(l_1_point, 'text')))
                yield '</li>'
            l_1_point = missing
            yield '  </ul>\n'
    else:
        pass
        yield '  <p data-key="no-alerts">'
        yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'no_alerts')))
        yield '</p>\n'
    yield '\n'
    if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'oil'):
        pass
        yield '  <h2 data-key="oil">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'swap.oil')))
        yield '</h2>\n'
        for l_1_point in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'oil')):
            _loop_vars = {}
            pass
            yield '<p data-key="'
            yield (environment.finalize(environment.getattr(l_1_point, 'key')))
            yield '">'
            yield (environment.finalize(environment.getattr(l_1_point, 'text')))
            yield '</p>'
        l_1_point = missing
    yield '\n'
    if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'dishes'):
        pass
        yield '  <h2 data-key="menu">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'swap.menu')))
        yield '</h2>\n  <dl class="plain">\n'
        for l_1_fact in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'dishes')):
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
    yield '\n'
    if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'lines'):
        pass
        yield '  <table class="list">\n    <colgroup><col class="name"/><col class="figure"/><col class="figure"/><col class="figure"/></colgroup>\n    <thead>\n      <tr data-key="line-heads">\n        <th scope="col">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'swap.head.line')))
        yield '</th>\n        <th scope="col">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'swap.head.pull')))
        yield '</th>\n        <th scope="col">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'swap.head.insert')))
        yield '</th>\n        <th scope="col">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'swap.head.leave')))
        yield '</th>\n      </tr>\n    </thead>\n    <tbody>\n'
        for l_1_row in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'lines')):
            _loop_vars = {}
            pass
            yield '      <tr data-key="'
            yield (environment.finalize(environment.getattr(l_1_row, 'key')))
            yield '">\n        <th scope="row">'
            yield (environment.finalize(environment.getattr(l_1_row, 'name')))
            yield '</th>\n        <td><b>'
            yield (environment.finalize(environment.getattr(l_1_row, 'pull')))
            yield '</b></td>\n        <td><b>'
            yield (environment.finalize(environment.getattr(l_1_row, 'insert')))
            yield '</b></td>\n        <td>'
            yield (environment.finalize(environment.getattr(l_1_row, 'leave')))
            yield '</td>\n      </tr>\n'
        l_1_row = missing
        yield '    </tbody>\n  </table>\n'
    yield '\n'
    if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'steps'):
        pass
        yield '  <h2 data-key="steps">'
        yield (environment.finalize((environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'swap.front') if (not environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'line')) else environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'swap.steps'))))
        yield '</h2>\n  <p data-key="how">'
        yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'how')))
        yield '</p>\n  <table class="list">\n    <colgroup><col class="tick"/><col class="text"/><col class="name"/><col class="text"/><col class="text"/></colgroup>\n    <thead>\n      <tr data-key="step-heads">\n        <th scope="col"></th>\n        <th scope="col">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'swap.head.do')))
        yield '</th>\n        <th scope="col">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'swap.head.sheet')))
        yield '</th>\n        <th scope="col">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'swap.head.old')))
        yield '</th>\n        <th scope="col">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'swap.head.new')))
        yield '</th>\n      </tr>\n    </thead>\n    <tbody>\n'
        for l_1_row in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'steps')):
            _loop_vars = {}
            pass
            yield '      <tr data-key="'
            yield (environment.finalize(environment.getattr(l_1_row, 'key')))
            yield '">\n        <td>'
            if environment.getattr(l_1_row, 'ticks'):
                pass
                yield '<span class="tick" data-count="'
                yield (environment.finalize(environment.getattr(l_1_row, 'ticks')))
                yield '"></span>'
            yield '</td>\n        <td>'
            yield (environment.finalize(environment.getattr(l_1_row, 'act')))
            yield '</td>\n        <th scope="row">'
            yield (environment.finalize(environment.getattr(l_1_row, 'name')))
            yield '<span class="note">'
            yield (environment.finalize(environment.getattr(l_1_row, 'note')))
            yield '</span></th>\n        <td><span class="quiet">'
            yield (environment.finalize(environment.getattr(l_1_row, 'old')))
            yield '</span></td>\n        <td>'
            yield (environment.finalize(environment.getattr(l_1_row, 'new')))
            yield '</td>\n      </tr>\n'
        l_1_row = missing
        yield '    </tbody>\n  </table>\n'
    yield '\n'
    if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'unused'):
        pass
        yield '  <h2 data-key="unused">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'swap.unused')))
        yield '</h2>\n  <p data-key="unused.rule">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'swap.unused.rule')))
        yield '</p>\n  <table class="list">\n    <colgroup><col class="tick"/><col class="name"/><col class="text"/><col class="text"/></colgroup>\n    <thead>\n      <tr data-key="unused-heads">\n        <th scope="col"></th>\n        <th scope="col">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'swap.head.component')))
        yield '</th>\n        <th scope="col">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'swap.head.made-on')))
        yield '</th>\n        <th scope="col">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'swap.head.use-by')))
        yield '</th>\n      </tr>\n    </thead>\n    <tbody>\n'
        for l_1_row in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'unused')):
            _loop_vars = {}
            pass
            yield '      <tr data-key="'
            yield (environment.finalize(environment.getattr(l_1_row, 'key')))
            yield '">\n        <td><span class="tick" data-count="1"></span></td>\n        <th scope="row">'
            yield (environment.finalize(environment.getattr(l_1_row, 'name')))
            yield '</th>\n        <td>'
            yield (environment.finalize(environment.getattr(l_1_row, 'line')))
            yield '</td>\n        <td>'
            yield (environment.finalize(environment.getattr(l_1_row, 'use_by')))
            yield '</td>\n      </tr>\n'
        l_1_row = missing
        yield '    </tbody>\n  </table>\n'
    yield '\n'
    if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'changes'):
        pass
        yield '  <h2 data-key="changes">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'swap.changes')))
        yield '</h2>\n'
        for l_1_change in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'changes')):
            _loop_vars = {}
            pass
            yield '  <h3 data-key="change.'
            yield (environment.finalize(environment.getattr(l_1_change, 'key')))
            yield '">'
            yield (environment.finalize(environment.getattr(l_1_change, 'name')))
            yield '<span class="aside">'
            yield (environment.finalize(environment.getattr(l_1_change, 'documents')))
            yield '</span></h3>\n  <ul>\n'
            for l_2_point in t_1(environment.getattr(l_1_change, 'points')):
                _loop_vars = {}
                pass
                yield '<li data-key="'
                yield (environment.finalize(environment.getattr(l_2_point, 'key')))
                yield '">'
                yield (environment.finalize(environment.getattr(l_2_point, 'text')))
                yield '</li>'
            l_2_point = missing
            for l_2_note in t_1(environment.getattr(l_1_change, 'notes')):
                _loop_vars = {}
                pass
                yield '<li data-key="'
                yield (environment.finalize(environment.getattr(l_2_note, 'key')))
                yield '"><i>'
                yield (environment.finalize(environment.getattr(l_2_note, 'text')))
                yield '</i></li>'
            l_2_note = missing
            yield '  </ul>\n'
        l_1_change = missing
    yield '</article>'

blocks = {}
debug_info = '3=20&5=24&6=26&7=28&9=30&11=32&13=38&14=40&16=43&18=45&22=58&24=60&28=73&31=76&32=79&33=81&36=91&37=94&39=96&40=100&45=109&50=112&51=114&52=116&53=118&57=120&58=124&59=126&60=128&61=130&62=132&69=137&70=140&71=142&77=144&78=146&79=148&80=150&84=152&85=156&86=158&87=164&88=166&89=170&90=172&97=177&98=180&99=182&105=184&106=186&107=188&111=190&112=194&114=196&115=198&116=200&123=205&124=208&125=210&126=214&128=220&129=229'