from jinja2.runtime import LoopContext, Macro, Markup, Namespace, TemplateNotFound, TemplateReference, TemplateRuntimeError, Undefined, escape, identity, internalcode, markup_join, missing, str_join
name = 'part_section.xml.j2'

def root(context, missing=missing, environment=environment):
    resolve = context.resolve_or_missing
    undefined = environment.undefined
    concat = environment.concat
    cond_expr_undefined = Undefined
    if 0: yield None
    l_0_section = resolve('section')
    try:
        t_1 = environment.filters['gone over']
    except KeyError:
        @internalcode
        def t_1(*unused):
            raise TemplateRuntimeError("No filter named 'gone over' found.")
    pass
    yield '<h3 data-key="'
    yield (environment.finalize(environment.getattr((undefined(name='section') if l_0_section is missing else l_0_section), 'key')))
    yield '">'
    yield (environment.finalize(environment.getattr((undefined(name='section') if l_0_section is missing else l_0_section), 'title')))
    if environment.getattr((undefined(name='section') if l_0_section is missing else l_0_section), 'aside'):
        pass
        yield '<span class="aside">'
        yield (environment.finalize(environment.getattr((undefined(name='section') if l_0_section is missing else l_0_section), 'aside')))
        yield '</span>'
    yield '</h3>\n'
    for l_1_passage in t_1(environment.getattr((undefined(name='section') if l_0_section is missing else l_0_section), 'passages')):
        _loop_vars = {}
        pass
        if (environment.getattr(l_1_passage, 'form') == 'step'):
            pass
            yield '<ol start="'
            yield (environment.finalize(environment.getattr(l_1_passage, 'first')))
            yield '">\n'
            for l_2_item in t_1(environment.getattr(l_1_passage, 'items')):
                _loop_vars = {}
                pass
                yield '  <li data-key="'
                yield (environment.finalize(environment.getattr(l_2_item, 'key')))
                yield '">'
                yield (environment.finalize(environment.getattr(l_2_item, 'text')))
                yield '</li>\n'
            l_2_item = missing
            yield '</ol>\n'
        elif (environment.getattr(l_1_passage, 'form') == 'point'):
            pass
            yield '<ul>\n'
            for l_2_item in t_1(environment.getattr(l_1_passage, 'items')):
                _loop_vars = {}
                pass
                yield '  <li data-key="'
                yield (environment.finalize(environment.getattr(l_2_item, 'key')))
                yield '">'
                yield (environment.finalize(environment.getattr(l_2_item, 'text')))
                yield '</li>\n'
            l_2_item = missing
            yield '</ul>\n'
        else:
            pass
            for l_2_item in t_1(environment.getattr(l_1_passage, 'items')):
                _loop_vars = {}
                pass
                yield '<p data-key="'
                yield (environment.finalize(environment.getattr(l_2_item, 'key')))
                yield '">'
                yield (environment.finalize(environment.getattr(l_2_item, 'text')))
                yield '</p>\n'
            l_2_item = missing
    l_1_passage = missing

blocks = {}
debug_info = '3=19&4=28&5=31&6=34&7=36&8=40&11=46&13=49&14=53&18=61&19=65'