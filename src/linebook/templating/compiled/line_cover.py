from jinja2.runtime import LoopContext, Macro, Markup, Namespace, TemplateNotFound, TemplateReference, TemplateRuntimeError, Undefined, escape, identity, internalcode, markup_join, missing, str_join
name = 'line_cover.xml.j2'

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
    yield '" class="line-cover" data-line="'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'line')))
    yield '" data-page="portrait">\n  <header>\n    <p class="kicker">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'kicker')))
    yield '</p>\n    <h1>'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'title')))
    yield '</h1>\n    <p class="aside">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'aside')))
    yield '</p>\n  </header>\n  <div class="split" data-left="60">\n    <div class="left">\n      <dl class="plain">\n'
    for l_1_fact in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'facts')):
        _loop_vars = {}
        pass
        yield '        <dt data-key="'
        yield (environment.finalize(environment.getattr(l_1_fact, 'key')))
        yield '">'
        yield (environment.finalize(environment.getattr(l_1_fact, 'label')))
        yield '</dt><dd>'
        yield (environment.finalize(environment.getattr(l_1_fact, 'value')))
        yield '</dd>\n'
    l_1_fact = missing
    yield '      </dl>\n    </div>\n    <div class="right">\n      <dl class="plain">\n'
    for l_1_fact in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'hours')):
        _loop_vars = {}
        pass
        yield '        <dt data-key="'
        yield (environment.finalize(environment.getattr(l_1_fact, 'key')))
        yield '">'
        yield (environment.finalize(environment.getattr(l_1_fact, 'label')))
        yield '</dt><dd>'
        yield (environment.finalize(environment.getattr(l_1_fact, 'value')))
        yield '</dd>\n'
    l_1_fact = missing
    yield '      </dl>\n    </div>\n  </div>\n'
    if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'from_others'):
        pass
        yield '  <dl class="plain">\n'
        for l_1_fact in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'from_others')):
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
    yield '\n  <div class="box caution" data-key="cautions">\n    <h3 data-key="cautions.title">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'cautions_title')))
    yield '</h3>\n    <ul>\n'
    for l_1_caution in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'cautions')):
        _loop_vars = {}
        pass
        yield '      <li data-key="'
        yield (environment.finalize(environment.getattr(l_1_caution, 'key')))
        yield '">'
        yield (environment.finalize(environment.getattr(l_1_caution, 'text')))
        yield '</li>\n'
    l_1_caution = missing
    yield '    </ul>\n  </div>\n\n'
    if (environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'portions') or environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'short')):
        pass
        yield '  <h2 data-key="portions">'
        yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'portions_title')))
        yield '</h2>\n  <table class="list">\n    <colgroup><col class="name"/>'
        for l_1_head in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'night_heads')):
            _loop_vars = {}
            pass
            yield '<col class="figure"/>'
        l_1_head = missing
        yield '</colgroup>\n    <thead>\n      <tr data-key="portion-heads">\n        <th scope="col">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'cover.dish')))
        yield '</th>\n'
        for l_1_head in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'night_heads')):
            _loop_vars = {}
            pass
            yield '<th scope="col">'
            yield (environment.finalize(l_1_head))
            yield '</th>'
        l_1_head = missing
        yield '      </tr>\n    </thead>\n    <tbody>\n'
        for l_1_row in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'portions')):
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
        if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'short'):
            pass
            yield '      <tr class="group" data-key="short"><th colspan="'
            yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'columns')))
            yield '">'
            yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'short_title')))
            yield '</th></tr>\n'
            for l_1_row in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'short')):
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
        yield '    </tbody>\n  </table>\n'
    yield '\n  <h2 data-key="contents" data-page="new">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'contents_title')))
    yield '</h2>\n  <table class="contents">\n    <colgroup><col class="name"/><col class="text"/>'
    if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'fingerprints'):
        pass
        yield '<col class="text"/>'
    yield '</colgroup>\n    <thead>\n      <tr data-key="heads">\n        <th scope="col">'
    yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'cover.name')))
    yield '</th>\n        <th scope="col">'
    yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'cover.document')))
    yield '</th>\n'
    if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'fingerprints'):
        pass
        yield '<th scope="col">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'cover.fingerprint')))
        yield '</th>'
    yield '      </tr>\n    </thead>\n    <tbody>\n'
    for l_1_row in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'contents')):
        _loop_vars = {}
        pass
        yield '      <tr data-key="'
        yield (environment.finalize(environment.getattr(l_1_row, 'key')))
        yield '">\n        <th scope="row">'
        yield (environment.finalize(environment.getattr(l_1_row, 'name')))
        yield '</th>\n        <td>'
        yield (environment.finalize(environment.getattr(l_1_row, 'document')))
        yield '</td>\n'
        if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'fingerprints'):
            pass
            yield '<td>'
            yield (environment.finalize(environment.getattr(l_1_row, 'fingerprint')))
            yield '</td>'
        yield '      </tr>\n'
    l_1_row = missing
    yield '    </tbody>\n  </table>\n</article>'

blocks = {}
debug_info = '3=20&5=24&6=26&7=28&12=30&13=34&19=42&20=46&25=54&27=57&28=61&34=70&36=72&37=76&42=82&43=85&45=87&48=93&49=95&53=103&54=107&55=109&56=111&59=120&60=123&61=127&62=131&63=133&64=135&72=146&74=148&77=152&78=154&79=156&83=162&84=166&85=168&86=170&87=172'