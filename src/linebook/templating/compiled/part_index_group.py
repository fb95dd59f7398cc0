from jinja2.runtime import LoopContext, Macro, Markup, Namespace, TemplateNotFound, TemplateReference, TemplateRuntimeError, Undefined, escape, identity, internalcode, markup_join, missing, str_join
name = 'part_index_group.xml.j2'

def root(context, missing=missing, environment=environment):
    resolve = context.resolve_or_missing
    undefined = environment.undefined
    concat = environment.concat
    cond_expr_undefined = Undefined
    if 0: yield None
    l_0_group = resolve('group')
    try:
        t_1 = environment.filters['gone over']
    except KeyError:
        @internalcode
        def t_1(*unused):
            raise TemplateRuntimeError("No filter named 'gone over' found.")
    pass
    if environment.getattr((undefined(name='group') if l_0_group is missing else l_0_group), 'title'):
        pass
        yield '<h3 data-key="'
        yield (environment.finalize(environment.getattr((undefined(name='group') if l_0_group is missing else l_0_group), 'key')))
        yield '">'
        if environment.getattr((undefined(name='group') if l_0_group is missing else l_0_group), 'sheet'):
            pass
            yield '<span data-key="'
            yield (environment.finalize(environment.getattr((undefined(name='group') if l_0_group is missing else l_0_group), 'sheet')))
            yield '">'
            yield (environment.finalize(environment.getattr((undefined(name='group') if l_0_group is missing else l_0_group), 'title')))
            yield '</span>'
        else:
            pass
            yield (environment.finalize(environment.getattr((undefined(name='group') if l_0_group is missing else l_0_group), 'title')))
        yield '</h3>\n'
    yield '<ul>\n'
    for l_1_entry in t_1(environment.getattr((undefined(name='group') if l_0_group is missing else l_0_group), 'entries')):
        _loop_vars = {}
        pass
        yield '  <li data-key="'
        yield (environment.finalize(environment.getattr(l_1_entry, 'key')))
        yield '"><span data-key="'
        yield (environment.finalize(environment.getattr(environment.getattr(l_1_entry, 'name'), 'key')))
        yield '">'
        yield (environment.finalize(environment.getattr(environment.getattr(l_1_entry, 'name'), 'text')))
        yield '</span>'
        for l_2_other in t_1(environment.getattr(l_1_entry, 'more')):
            l_2_say = resolve('say')
            _loop_vars = {}
            pass
            yield (environment.finalize(environment.call(context, (undefined(name='say') if l_2_say is missing else l_2_say), 'kicker.between', _loop_vars=_loop_vars)))
            yield '<span data-key="'
            yield (environment.finalize(environment.getattr(l_2_other, 'key')))
            yield '">'
            yield (environment.finalize(environment.getattr(l_2_other, 'text')))
            yield '</span>'
        l_2_other = l_2_say = missing
        yield '</li>\n'
    l_1_entry = missing
    yield '</ul>'

blocks = {}
debug_info = '2=18&3=21&6=35&7=39'