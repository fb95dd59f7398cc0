from jinja2.runtime import LoopContext, Macro, Markup, Namespace, TemplateNotFound, TemplateReference, TemplateRuntimeError, Undefined, escape, identity, internalcode, markup_join, missing, str_join
name = 'part_allergens.xml.j2'

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
    yield '<dl class="allergens">\n'
    l_1_loop = missing
    for l_1_line, l_1_loop in LoopContext(t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'allergens')), undefined):
        l_1_say = resolve('say')
        _loop_vars = {}
        pass
        yield '  <dt data-key="allergens.'
        yield (environment.finalize(environment.getattr(l_1_line, 'key')))
        yield '">'
        yield (environment.finalize(environment.getattr(l_1_line, 'label')))
        yield '</dt>\n  <dd>\n'
        l_2_loop = missing
        for l_2_member, l_2_loop in LoopContext(t_1(environment.getattr(l_1_line, 'members')), undefined):
            _loop_vars = {}
            pass
            yield '    <span data-key="'
            yield (environment.finalize(environment.getattr(l_2_member, 'key')))
            yield '"><b>'
            yield (environment.finalize(environment.getattr(l_2_member, 'text')))
            yield '</b></span>'
            if (not environment.getattr(l_2_loop, 'last')):
                pass
                yield (environment.finalize(environment.call(context, (undefined(name='say') if l_1_say is missing else l_1_say), 'list.comma', _loop_vars=_loop_vars)))
        l_2_loop = l_2_member = missing
        if environment.getattr(l_1_line, 'note'):
            pass
            yield '<b>'
            yield (environment.finalize(environment.call(context, (undefined(name='say') if l_1_say is missing else l_1_say), 'list.reason', _loop_vars=_loop_vars)))
            yield (environment.finalize(environment.getattr(l_1_line, 'note')))
            yield '</b>'
        yield '  </dd>\n'
    l_1_loop = l_1_line = l_1_say = missing
    yield '</dl>'

blocks = {}
debug_info = '4=20&5=25&7=30&8=34&10=42'