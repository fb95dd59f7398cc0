from jinja2.runtime import LoopContext, Macro, Markup, Namespace, TemplateNotFound, TemplateReference, TemplateRuntimeError, Undefined, escape, identity, internalcode, markup_join, missing, str_join
name = 'prep_day.xml.j2'

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
    yield '" class="prep-day" data-line="'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'line')))
    yield '" data-page="portrait">\n  <header>\n    <p class="kicker">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'kicker')))
    yield '</p>\n    <h1>'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'title')))
    yield '</h1>\n    <p class="aside">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'aside')))
    yield '</p>\n  </header>\n'
    if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'first'):
        pass
        yield '<p class="lead" data-key="first">'
        yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'first')))
        yield '</p>'
    if (environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'work') and environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'over')):
        pass
        yield '<p class="safety" data-key="work">'
        yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'work')))
        yield '</p>'
    if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'unready'):
        pass
        yield '  <div class="box caution" data-key="unready">\n    <h3 data-key="unready.title">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'plan.unready-title')))
        yield '</h3>\n    <ul>'
        for l_1_one in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'unready')):
            _loop_vars = {}
            pass
            yield '<li data-key="'
            yield (environment.finalize(environment.getattr(l_1_one, 'key')))
            yield '">'
            yield (environment.finalize(environment.getattr(l_1_one, 'text')))
            yield '</li>'
        l_1_one = missing
        yield '</ul>\n  </div>\n'
    if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'changed'):
        pass
        yield '  <div class="box caution" data-key="changed">\n    <h3 data-key="changed.title">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'changed.title')))
        yield '</h3>\n    <ul>'
        for l_1_one in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'changed')):
            _loop_vars = {}
            pass
            yield '<li data-key="'
            yield (environment.finalize(environment.getattr(l_1_one, 'key')))
            yield '">'
            yield (environment.finalize(environment.getattr(l_1_one, 'text')))
            yield '</li>'
        l_1_one = missing
        yield '</ul>\n  </div>\n'
    if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'before'):
        pass
        yield '  <div class="box caution" data-key="before">\n    <h3 data-key="before.title">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'plan.before-title')))
        yield '</h3>\n    <ul>'
        for l_1_one in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'before')):
            _loop_vars = {}
            pass
            yield '<li data-key="'
            yield (environment.finalize(environment.getattr(l_1_one, 'key')))
            yield '">'
            yield (environment.finalize(environment.getattr(l_1_one, 'text')))
            yield '</li>'
        l_1_one = missing
        yield '</ul>\n  </div>\n'
    if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'running'):
        pass
        yield '  <h2 data-key="running">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'plan.running-title')))
        yield '</h2>\n  <dl class="plain">\n'
        for l_1_fact in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'running')):
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
    if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'nothing'):
        pass
        yield '<p class="lead" data-key="nothing">'
        yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'nothing')))
        yield '</p>'
    if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'groups'):
        pass
        yield '  <table class="list">\n    <colgroup>\n      <col class="tick"/><col class="figure"/><col class="name"/><col class="figure"/><col class="figure"/><col class="text"/>\n    </colgroup>\n    <thead>\n      <tr data-key="heads">\n        <th scope="col"></th>\n        <th scope="col">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'plan.start-by')))
        yield '</th>\n        <th scope="col">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'plan.what')))
        yield '</th>\n        <th scope="col">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'plan.amount')))
        yield '</th>\n        <th scope="col">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'plan.minutes')))
        yield '</th>\n        <th scope="col">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'plan.initials')))
        yield '</th>\n      </tr>\n    </thead>\n    <tbody>\n'
        for l_1_group in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'groups')):
            _loop_vars = {}
            pass
            yield '      <tr class="group" data-key="group.'
            yield (environment.finalize(environment.getattr(l_1_group, 'key')))
            yield '"><th colspan="6">'
            yield (environment.finalize(environment.getattr(l_1_group, 'title')))
            yield '</th></tr>\n'
            for l_2_row in t_1(environment.getattr(l_1_group, 'rows')):
                _loop_vars = {}
                pass
                yield '      <tr data-key="'
                yield (environment.finalize(environment.getattr(l_2_row, 'key')))
                yield '">\n        <td><span class="tick" data-count="1"></span></td>\n        <td>'
                yield (environment.finalize(environment.getattr(l_2_row, 'start')))
                yield '</td>\n        <th scope="row">'
                yield (environment.finalize(environment.getattr(l_2_row, 'name')))
                yield '<span class="note">'
                yield (environment.finalize(environment.getattr(l_2_row, 'note')))
                yield '</span></th>\n        <td>'
                yield (environment.finalize(environment.getattr(l_2_row, 'amount')))
                yield '</td>\n        <td>'
                yield (environment.finalize(environment.getattr(l_2_row, 'minutes')))
                yield '</td>\n        <td><span class="blank" data-width="3"></span></td>\n      </tr>\n'
            l_2_row = missing
        l_1_group = missing
        yield '    </tbody>\n  </table>\n'
    if (environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'work') and (not environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'over'))):
        pass
        yield '<p class="note" data-key="work">'
        yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'work')))
        yield '</p>'
    if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'overnight'):
        pass
        yield '  <h2 data-key="overnight">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'plan.overnight-title')))
        yield '</h2>\n  <dl class="plain">\n'
        for l_1_fact in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'overnight')):
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
    if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'stock'):
        pass
        yield '  <p class="note" data-key="stock"><b>'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'plan.stock-title')))
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'list.reason')))
        yield '</b>'
        l_1_loop = missing
        for l_1_one, l_1_loop in LoopContext(t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'stock')), undefined):
            _loop_vars = {}
            pass
            yield '<span data-key="'
            yield (environment.finalize(environment.getattr(l_1_one, 'key')))
            yield '">'
            yield (environment.finalize(environment.getattr(l_1_one, 'text')))
            yield '</span>'
            if (not environment.getattr(l_1_loop, 'last')):
                pass
                yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'list.comma', _loop_vars=_loop_vars)))
        l_1_loop = l_1_one = missing
        yield '</p>\n'
    template = environment.get_template('part_plan_cautions.xml.j2', 'prep_day.xml.j2')
    gen = template.root_render_func(template.new_context(context.get_all(), True, {}))
    try:
        for event in gen:
            yield event
    finally: gen.close()
    yield '  <p class="caution" data-key="caution">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'caution')))
    yield '</p>\n</article>'

blocks = {}
debug_info = '2=20&4=24&5=26&6=28&8=30&9=35&10=40&12=43&13=45&16=55&18=58&19=60&22=70&24=73&25=75&28=85&29=88&31=90&32=94&36=102&37=107&45=110&46=112&47=114&48=116&49=118&53=120&54=124&55=128&56=132&58=134&59=136&60=140&61=142&69=147&70=152&71=155&73=157&74=161&78=169&79=172&81=189&82=196'