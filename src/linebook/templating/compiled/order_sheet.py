from jinja2.runtime import LoopContext, Macro, Markup, Namespace, TemplateNotFound, TemplateReference, TemplateRuntimeError, Undefined, escape, identity, internalcode, markup_join, missing, str_join
name = 'order_sheet.xml.j2'

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
    yield '" class="order-sheet" data-line="" data-page="portrait">\n  <header>\n    <p class="kicker">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'kicker')))
    yield '</p>\n    <h1>'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'title')))
    yield '</h1>\n    <p class="aside">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'aside')))
    yield '</p>\n  </header>\n  <p data-key="services"><b>'
    yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'order.services')))
    yield '</b> '
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'services')))
    yield '</p>\n\n'
    for l_1_notice in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'notices')):
        _loop_vars = {}
        pass
        if environment.getattr(l_1_notice, 'boxed'):
            pass
            yield '  <div class="box caution" data-key="'
            yield (environment.finalize(environment.getattr(l_1_notice, 'key')))
            yield '">\n    <h3 data-key="'
            yield (environment.finalize(environment.getattr(l_1_notice, 'key')))
            yield '.title">'
            yield (environment.finalize(environment.getattr(l_1_notice, 'title')))
            yield '</h3>\n    <ul>\n'
            for l_2_point in t_1(environment.getattr(l_1_notice, 'points')):
                _loop_vars = {}
                pass
                yield '      <li data-key="'
                yield (environment.finalize(environment.getattr(l_2_point, 'key')))
                yield '">'
                yield (environment.finalize(environment.getattr(l_2_point, 'text')))
                yield '</li>\n'
            l_2_point = missing
            yield '    </ul>\n  </div>\n'
        else:
            pass
            yield '  <h2 data-key="'
            yield (environment.finalize(environment.getattr(l_1_notice, 'key')))
            yield '.title">'
            yield (environment.finalize(environment.getattr(l_1_notice, 'title')))
            yield '</h2>\n  <ul>\n'
            for l_2_point in t_1(environment.getattr(l_1_notice, 'points')):
                _loop_vars = {}
                pass
                yield '    <li data-key="'
                yield (environment.finalize(environment.getattr(l_2_point, 'key')))
                yield '">'
                yield (environment.finalize(environment.getattr(l_2_point, 'text')))
                yield '</li>\n'
            l_2_point = missing
            yield '  </ul>\n'
    l_1_notice = missing
    yield '\n'
    if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'nothing'):
        pass
        yield '<p class="lead" data-key="nothing">'
        yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'nothing')))
        yield '</p>'
    yield '\n'
    for l_1_supplier in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'suppliers')):
        _loop_vars = {}
        pass
        yield '  <h2 data-key="'
        yield (environment.finalize(environment.getattr(l_1_supplier, 'key')))
        yield '">'
        yield (environment.finalize(environment.getattr(l_1_supplier, 'name')))
        yield '<span class="aside">'
        yield (environment.finalize(environment.getattr(l_1_supplier, 'about')))
        yield '</span></h2>\n  <table class="list">\n    <colgroup><col class="tick"/><col class="name"/><col class="figure"/><col class="figure"/><col class="figure"/></colgroup>\n    <thead>\n      <tr data-key="'
        yield (environment.finalize(environment.getattr(l_1_supplier, 'key')))
        yield '.heads">\n        <th scope="col"></th>\n        <th scope="col">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'order.head.item', _loop_vars=_loop_vars)))
        yield '</th>\n        <th scope="col">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'order.head.order', _loop_vars=_loop_vars)))
        yield '</th>\n        <th scope="col">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'order.head.needed', _loop_vars=_loop_vars)))
        yield '</th>\n        <th scope="col">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'order.head.over', _loop_vars=_loop_vars)))
        yield '</th>\n      </tr>\n    </thead>\n    <tbody>\n'
        for l_2_group in t_1(environment.getattr(l_1_supplier, 'groups')):
            _loop_vars = {}
            pass
            yield '      <tr class="group" data-key="'
            yield (environment.finalize(environment.getattr(l_2_group, 'key')))
            yield '"><th colspan="5">'
            yield (environment.finalize(environment.getattr(l_2_group, 'title')))
            yield '</th></tr>\n'
            for l_3_row in t_1(environment.getattr(l_2_group, 'rows')):
                _loop_vars = {}
                pass
                yield '      <tr data-key="'
                yield (environment.finalize(environment.getattr(l_3_row, 'key')))
                yield '">\n        <td><span class="tick" data-count="1"></span></td>\n        <th scope="row">'
                yield (environment.finalize(environment.getattr(l_3_row, 'name')))
                yield '<span class="note">'
                yield (environment.finalize(environment.getattr(l_3_row, 'note')))
                yield '</span></th>\n        <td><b>'
                yield (environment.finalize(environment.getattr(l_3_row, 'order')))
                yield '</b></td>\n        <td><span class="quiet">'
                yield (environment.finalize(environment.getattr(l_3_row, 'needed')))
                yield '</span></td>\n        <td><span class="quiet">'
                yield (environment.finalize(environment.getattr(l_3_row, 'over')))
                yield '</span></td>\n      </tr>\n'
            l_3_row = missing
        l_2_group = missing
        yield '    </tbody>\n  </table>\n  <p class="note" data-key="'
        yield (environment.finalize(environment.getattr(l_1_supplier, 'key')))
        yield '.uses"><b>'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'order.for-title', _loop_vars=_loop_vars)))
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'list.reason', _loop_vars=_loop_vars)))
        yield '</b>'
        yield (environment.finalize(environment.getattr(l_1_supplier, 'uses')))
        yield '</p>\n'
    l_1_supplier = missing
    yield '\n'
    if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'seasons'):
        pass
        yield '  <h2 data-key="seasons">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'order.season.title')))
        yield '</h2>\n  <table class="list">\n    <colgroup><col class="name"/><col class="figure"/><col class="figure"/><col class="figure"/></colgroup>\n    <thead>\n      <tr data-key="season-heads">\n        <th scope="col">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'order.head.item')))
        yield '</th>\n        <th scope="col">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'order.season.last')))
        yield '</th>\n        <th scope="col">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'order.season.here')))
        yield '</th>\n        <th scope="col">'
        yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'season_head')))
        yield '</th>\n      </tr>\n    </thead>\n    <tbody>\n'
        for l_1_row in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'seasons')):
            _loop_vars = {}
            pass
            yield '      <tr data-key="'
            yield (environment.finalize(environment.getattr(l_1_row, 'key')))
            yield '">\n        <th scope="row">'
            yield (environment.finalize(environment.getattr(l_1_row, 'name')))
            yield '</th>\n        <td><b>'
            yield (environment.finalize(environment.getattr(l_1_row, 'last')))
            yield '</b></td>\n        <td>'
            yield (environment.finalize(environment.getattr(l_1_row, 'here')))
            yield '</td>\n        <td>'
            yield (environment.finalize(environment.getattr(l_1_row, 'in_all')))
            yield '</td>\n      </tr>\n'
        l_1_row = missing
        yield '    </tbody>\n  </table>\n'
    yield '\n'
    for l_1_fact in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'also')):
        _loop_vars = {}
        pass
        yield '  <p data-key="'
        yield (environment.finalize(environment.getattr(l_1_fact, 'key')))
        yield '"><b>'
        yield (environment.finalize(environment.getattr(l_1_fact, 'label')))
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'list.reason', _loop_vars=_loop_vars)))
        yield '</b>'
        yield (environment.finalize(environment.getattr(l_1_fact, 'value')))
        yield '</p>\n'
    l_1_fact = missing
    yield '  <p class="note" data-key="rule">'
    yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'order.rule')))
    yield '</p>\n</article>'

blocks = {}
debug_info = '3=20&5=22&6=24&7=26&9=28&11=32&12=35&13=38&14=40&16=44&17=48&22=57&24=61&25=65&31=73&33=79&34=83&38=89&40=91&41=93&42=95&43=97&47=99&48=103&49=107&50=111&52=113&53=117&54=119&55=121&61=126&64=135&65=138&70=140&71=142&72=144&73=146&77=148&78=152&79=154&80=156&81=158&82=160&89=165&90=169&92=178'