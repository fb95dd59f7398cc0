from jinja2.runtime import LoopContext, Macro, Markup, Namespace, TemplateNotFound, TemplateReference, TemplateRuntimeError, Undefined, escape, identity, internalcode, markup_join, missing, str_join
name = 'pull_list.xml.j2'

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
    yield '" class="pull-list" data-line="'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'line')))
    yield '" data-page="portrait">\n  <header>\n    <p class="kicker">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'kicker')))
    yield '</p>\n    <h1>'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'title')))
    yield '</h1>\n    <p class="aside">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'aside')))
    yield '</p>\n  </header>\n  <table class="list">\n    <colgroup><col class="tick"/><col class="figure"/><col class="name"/><col class="text"/></colgroup>\n    <thead>\n      <tr data-key="heads">\n        <th scope="col"></th><th scope="col">'
    yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'pull.amount')))
    yield '</th><th scope="col">'
    yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'pull.item')))
    yield '</th><th scope="col">'
    yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'plan.for')))
    yield '</th>\n      </tr>\n    </thead>\n    <tbody>\n'
    for l_1_group in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'groups')):
        _loop_vars = {}
        pass
        yield '      <tr class="group" data-key="group.'
        yield (environment.finalize(environment.getattr(l_1_group, 'key')))
        yield '"><th colspan="4">'
        yield (environment.finalize(environment.getattr(l_1_group, 'title')))
        yield '</th></tr>\n'
        for l_2_row in t_1(environment.getattr(l_1_group, 'rows')):
            _loop_vars = {}
            pass
            yield '      <tr data-key="'
            yield (environment.finalize(environment.getattr(l_2_row, 'key')))
            yield '">\n        <td><span class="tick" data-count="1"></span></td><td>'
            yield (environment.finalize(environment.getattr(l_2_row, 'amount')))
            yield '</td><th scope="row">'
            yield (environment.finalize(environment.getattr(l_2_row, 'name')))
            yield '</th><td>'
            yield (environment.finalize(environment.getattr(l_2_row, 'users')))
            yield '</td>\n      </tr>\n'
        l_2_row = missing
    l_1_group = missing
    yield '    </tbody>\n  </table>\n'
    if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'knife'):
        pass
        yield '  <h2 data-key="knife">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'pull.knife')))
        yield '</h2>\n  <table class="list">\n    <colgroup><col class="tick"/><col class="figure"/><col class="name"/><col class="text"/></colgroup>\n    <thead>\n      <tr data-key="knife-heads">\n        <th scope="col"></th><th scope="col">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'pull.amount')))
        yield '</th><th scope="col">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'pull.item')))
        yield '</th><th scope="col">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'plan.for')))
        yield '</th>\n      </tr>\n    </thead>\n    <tbody>\n'
        for l_1_row in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'knife')):
            _loop_vars = {}
            pass
            yield '      <tr data-key="'
            yield (environment.finalize(environment.getattr(l_1_row, 'key')))
            yield '">\n        <td><span class="tick" data-count="1"></span></td><td>'
            yield (environment.finalize(environment.getattr(l_1_row, 'amount')))
            yield '</td><th scope="row">'
            yield (environment.finalize(environment.getattr(l_1_row, 'name')))
            yield '</th><td>'
            yield (environment.finalize(environment.getattr(l_1_row, 'users')))
            yield '</td>\n      </tr>\n'
        l_1_row = missing
        yield '    </tbody>\n  </table>\n'
    yield '</article>'

blocks = {}
debug_info = '2=20&4=24&5=26&6=28&12=30&16=36&17=40&18=44&19=48&20=50&26=59&27=62&32=64&36=70&37=74&38=76'