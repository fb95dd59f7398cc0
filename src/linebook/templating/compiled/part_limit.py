from jinja2.runtime import LoopContext, Macro, Markup, Namespace, TemplateNotFound, TemplateReference, TemplateRuntimeError, Undefined, escape, identity, internalcode, markup_join, missing, str_join
name = 'part_limit.xml.j2'

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
    yield '<div class="box limit" data-key="'
    yield (environment.finalize(environment.getattr(environment.getattr((undefined(name='section') if l_0_section is missing else l_0_section), 'limit'), 'key')))
    yield '">\n  <h3 data-key="'
    yield (environment.finalize(environment.getattr(environment.getattr((undefined(name='section') if l_0_section is missing else l_0_section), 'limit'), 'key')))
    yield '.title">'
    yield (environment.finalize(environment.getattr(environment.getattr((undefined(name='section') if l_0_section is missing else l_0_section), 'limit'), 'title')))
    yield '</h3>\n  <p class="safety" data-key="'
    yield (environment.finalize(environment.getattr(environment.getattr((undefined(name='section') if l_0_section is missing else l_0_section), 'limit'), 'key')))
    yield '.rule">'
    yield (environment.finalize(environment.getattr(environment.getattr((undefined(name='section') if l_0_section is missing else l_0_section), 'limit'), 'rule')))
    if environment.getattr(environment.getattr((undefined(name='section') if l_0_section is missing else l_0_section), 'limit'), 'figure_open'):
        pass
        yield ' <span class="blank" data-width="9"></span>'
    yield '</p>\n'
    if environment.getattr(environment.getattr((undefined(name='section') if l_0_section is missing else l_0_section), 'limit'), 'asked'):
        pass
        yield '  <p class="safety" data-key="'
        yield (environment.finalize(environment.getattr(environment.getattr((undefined(name='section') if l_0_section is missing else l_0_section), 'limit'), 'key')))
        yield '.asked">'
        yield (environment.finalize(environment.getattr(environment.getattr((undefined(name='section') if l_0_section is missing else l_0_section), 'limit'), 'asked')))
        yield '</p>\n'
    yield '  <p class="safety" data-key="'
    yield (environment.finalize(environment.getattr(environment.getattr((undefined(name='section') if l_0_section is missing else l_0_section), 'limit'), 'key')))
    yield '.missed">'
    yield (environment.finalize(environment.getattr(environment.getattr((undefined(name='section') if l_0_section is missing else l_0_section), 'limit'), 'missed')))
    yield '</p>\n  <table class="log">\n    <colgroup><col class="name"/>'
    for l_1_cell in t_1(environment.getattr(environment.getattr((undefined(name='section') if l_0_section is missing else l_0_section), 'limit'), 'columns')):
        _loop_vars = {}
        pass
        yield '<col class="text"/>'
    l_1_cell = missing
    yield '</colgroup>\n    <tbody>\n'
    for l_1_row in t_1(environment.getattr(environment.getattr((undefined(name='section') if l_0_section is missing else l_0_section), 'limit'), 'log')):
        _loop_vars = {}
        pass
        yield '      <tr data-key="'
        yield (environment.finalize(environment.getattr(environment.getattr((undefined(name='section') if l_0_section is missing else l_0_section), 'limit'), 'key')))
        yield '.'
        yield (environment.finalize(environment.getattr(l_1_row, 'key')))
        yield '">\n        <th scope="row">'
        yield (environment.finalize(environment.getattr(l_1_row, 'name')))
        yield '</th>\n'
        for l_2_cell in t_1(environment.getattr(l_1_row, 'cells')):
            _loop_vars = {}
            pass
            yield '        <td>'
            yield (environment.finalize(environment.getattr(l_2_cell, 'before')))
            yield '&#160;<span class="blank" data-width="'
            yield (environment.finalize(environment.getattr(l_2_cell, 'width')))
            yield '"></span>'
            if environment.getattr(l_2_cell, 'after'):
                pass
                yield '&#160;'
                yield (environment.finalize(environment.getattr(l_2_cell, 'after')))
            yield '</td>\n'
        l_2_cell = missing
        yield '      </tr>\n'
    l_1_row = missing
    yield '    </tbody>\n  </table>\n  <p class="source" data-key="'
    yield (environment.finalize(environment.getattr(environment.getattr((undefined(name='section') if l_0_section is missing else l_0_section), 'limit'), 'key')))
    yield '.source">'
    yield (environment.finalize(environment.getattr(environment.getattr((undefined(name='section') if l_0_section is missing else l_0_section), 'limit'), 'source')))
    yield '</p>\n</div>'

blocks = {}
debug_info = '3=19&4=21&5=25&6=32&7=35&9=40&11=44&13=50&14=54&15=58&16=60&17=64&23=77'