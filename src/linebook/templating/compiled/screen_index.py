from jinja2.runtime import LoopContext, Macro, Markup, Namespace, TemplateNotFound, TemplateReference, TemplateRuntimeError, Undefined, escape, identity, internalcode, markup_join, missing, str_join
name = 'screen_index.xml.j2'

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
    yield '" class="screen-index" data-line="" data-page="portrait">\n  <header>\n    <p class="kicker">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'kicker')))
    yield '</p>\n    <h1>'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'title')))
    yield '</h1>\n    <p class="aside">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'menu')))
    yield '</p>\n  </header>\n\n  <h2 data-key="by-course">'
    yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'screen.by-course')))
    yield '</h2>\n'
    for l_1_group in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'courses')):
        _loop_vars = {}
        pass
        template = environment.get_template('part_index_group.xml.j2', 'screen_index.xml.j2')
        gen = template.root_render_func(template.new_context(context.get_all(), True, {'group': l_1_group}))
        try:
            for event in gen:
                yield event
        finally: gen.close()
    l_1_group = missing
    yield '\n  <h2 data-key="by-line">'
    yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'screen.by-line')))
    yield '</h2>\n'
    for l_1_group in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'lines')):
        _loop_vars = {}
        pass
        template = environment.get_template('part_index_group.xml.j2', 'screen_index.xml.j2')
        gen = template.root_render_func(template.new_context(context.get_all(), True, {'group': l_1_group}))
        try:
            for event in gen:
                yield event
        finally: gen.close()
    l_1_group = missing
    yield '\n  <h2 data-key="alphabetical">'
    yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'screen.alphabetical')))
    yield '</h2>\n'
    for l_1_group in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'alphabetical')):
        _loop_vars = {}
        pass
        template = environment.get_template('part_index_group.xml.j2', 'screen_index.xml.j2')
        gen = template.root_render_func(template.new_context(context.get_all(), True, {'group': l_1_group}))
        try:
            for event in gen:
                yield event
        finally: gen.close()
    l_1_group = missing
    yield '</article>'

blocks = {}
debug_info = '3=20&5=22&6=24&7=26&10=28&11=30&12=33&15=41&16=43&17=46&20=54&21=56&22=59'