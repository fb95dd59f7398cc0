from jinja2.runtime import LoopContext, Macro, Markup, Namespace, TemplateNotFound, TemplateReference, TemplateRuntimeError, Undefined, escape, identity, internalcode, markup_join, missing, str_join
name = 'part_elements.xml.j2'

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
    yield '<table class="elements">\n  <colgroup>\n    <col class="number"/><col class="amount"/><col class="unit"/><col class="name"/>\n'
    for l_1_size in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'size_heads')):
        _loop_vars = {}
        pass
        yield '<col class="figure"/>'
    l_1_size = missing
    yield '  </colgroup>\n  <thead>\n    <tr data-key="heads">\n      <th scope="col" colspan="4">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'portion_head')))
    yield '</th>\n'
    for l_1_size in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'size_heads')):
        _loop_vars = {}
        pass
        yield '<th scope="col">'
        yield (environment.finalize(l_1_size))
        yield '</th>'
    l_1_size = missing
    yield '    </tr>\n  </thead>\n  <tbody>\n'
    for l_1_row in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'elements')):
        _loop_vars = {}
        pass
        yield '    <tr data-key="'
        yield (environment.finalize(environment.getattr(l_1_row, 'key')))
        yield '">\n      <td><span class="number">'
        yield (environment.finalize(environment.getattr(l_1_row, 'plating')))
        yield '</span></td>\n'
        if environment.getattr(l_1_row, 'unit'):
            pass
            yield '      <td>'
            yield (environment.finalize(environment.getattr(l_1_row, 'number')))
            yield '</td><td>'
            yield (environment.finalize(environment.getattr(l_1_row, 'unit')))
            yield '</td>\n'
        else:
            pass
            yield '      <td colspan="2">'
            yield (environment.finalize(environment.getattr(l_1_row, 'number')))
            yield '</td>\n'
        yield '      <th scope="row">'
        yield (environment.finalize(environment.getattr(l_1_row, 'name')))
        if environment.getattr(l_1_row, 'note'):
            pass
            yield '<span class="note">'
            yield (environment.finalize(environment.getattr(l_1_row, 'note')))
            yield '</span>'
        yield '</th>\n'
        for l_2_figure in t_1(environment.getattr(l_1_row, 'figures')):
            _loop_vars = {}
            pass
            yield '<td>'
            yield (environment.finalize(l_2_figure))
            yield '</td>'
        l_2_figure = missing
        yield '    </tr>\n'
    l_1_row = missing
    yield '  </tbody>\n</table>'

blocks = {}
debug_info = '6=19&10=25&11=27&15=35&16=39&17=41&18=43&19=46&21=53&23=56&24=63'