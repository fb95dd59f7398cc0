from jinja2.runtime import LoopContext, Macro, Markup, Namespace, TemplateNotFound, TemplateReference, TemplateRuntimeError, Undefined, escape, identity, internalcode, markup_join, missing, str_join
name = 'allergen_matrix.xml.j2'

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
    yield '" class="allergen-matrix" data-line="" data-page="landscape">\n  <header>\n    <p class="kicker">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'kicker')))
    yield '</p>\n    <h1>'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'title')))
    yield '</h1>\n    <p class="aside"><b>'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'menu')))
    yield '</b>'
    yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'kicker.between')))
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'lists')))
    yield '</p>\n  </header>\n\n  <table class="matrix">\n    <colgroup><col class="name"/>'
    for l_1_column in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'columns')):
        _loop_vars = {}
        pass
        yield '<col class="mark"/>'
    l_1_column = missing
    yield '</colgroup>\n    <thead>\n      <tr data-key="heads">\n        <th scope="col">'
    yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'matrix.dish')))
    yield '</th>\n'
    for l_1_column in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'columns')):
        _loop_vars = {}
        pass
        yield '<th scope="col">'
        yield (environment.finalize(environment.getattr(l_1_column, 'text')))
        yield '</th>'
    l_1_column = missing
    yield '      </tr>\n    </thead>\n    <tbody>\n'
    for l_1_course in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'courses')):
        _loop_vars = {}
        pass
        yield '      <tr class="group" data-key="'
        yield (environment.finalize(environment.getattr(l_1_course, 'key')))
        yield '"><th colspan="'
        yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'width')))
        yield '">'
        yield (environment.finalize(environment.getattr(l_1_course, 'title')))
        yield '</th></tr>\n'
        for l_2_row in t_1(environment.getattr(l_1_course, 'rows')):
            _loop_vars = {}
            pass
            yield '      <tr data-key="'
            yield (environment.finalize(environment.getattr(l_2_row, 'key')))
            yield '">\n        <th scope="row">'
            yield (environment.finalize(environment.getattr(l_2_row, 'name')))
            yield '</th>\n'
            for l_3_cell in t_1(environment.getattr(l_2_row, 'cells')):
                _loop_vars = {}
                pass
                yield '<td><span class="'
                yield (environment.finalize(environment.getattr(l_3_cell, 'mark')))
                yield '">'
                yield (environment.finalize(environment.getattr(l_3_cell, 'word')))
                yield '</span></td>'
            l_3_cell = missing
            yield '      </tr>\n'
        l_2_row = missing
    l_1_course = missing
    yield '    </tbody>\n  </table>\n\n  <dl class="legend">\n'
    for l_1_entry in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'legend')):
        _loop_vars = {}
        pass
        yield '    <dt data-key="legend.'
        yield (environment.finalize(environment.getattr(l_1_entry, 'mark')))
        yield '"><span class="'
        yield (environment.finalize(environment.getattr(l_1_entry, 'mark')))
        yield '">'
        yield (environment.finalize(environment.getattr(l_1_entry, 'word')))
        yield '</span></dt><dd>'
        yield (environment.finalize(environment.getattr(l_1_entry, 'word')))
        yield '</dd>\n'
    l_1_entry = missing
    yield '    <dt data-key="legend.leave">'
    for l_1_entry in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'leaves')):
        _loop_vars = {}
        pass
        yield '<span class="'
        yield (environment.finalize(environment.getattr(l_1_entry, 'mark')))
        yield '">'
        yield (environment.finalize(environment.getattr(l_1_entry, 'word')))
        yield '</span>'
    l_1_entry = missing
    yield '</dt><dd>'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'leaves_word')))
    yield '</dd>\n  </dl>\n  <p class="safety" data-key="drinks">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'drinks')))
    yield '</p>\n\n'
    if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'notes'):
        pass
        yield '  <h2 data-key="notes" data-page="new">'
        yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'notes_title')))
        yield '</h2>\n'
        for l_1_sentence in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'about')):
            _loop_vars = {}
            pass
            yield '  <p class="safety" data-key="'
            yield (environment.finalize(environment.getattr(l_1_sentence, 'key')))
            yield '">'
            yield (environment.finalize(environment.getattr(l_1_sentence, 'text')))
            yield '</p>\n'
        l_1_sentence = missing
        yield '  <table class="list">\n    <colgroup><col class="name"/><col class="text"/></colgroup>\n    <tbody>\n'
        for l_1_row in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'notes')):
            _loop_vars = {}
            pass
            yield '      <tr data-key="'
            yield (environment.finalize(environment.getattr(l_1_row, 'key')))
            yield '"><th scope="row">'
            yield (environment.finalize(environment.getattr(l_1_row, 'name')))
            yield '</th><td>'
            yield (environment.finalize(environment.getattr(l_1_row, 'note')))
            yield '</td></tr>\n'
        l_1_row = missing
        yield '    </tbody>\n  </table>\n'
    yield '  <p class="caution" data-key="caution">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'caution')))
    yield '</p>\n</article>'

blocks = {}
debug_info = '3=20&5=22&6=24&7=26&11=31&14=37&15=39&19=47&20=51&21=57&22=61&23=63&24=65&33=78&34=82&36=92&38=104&41=106&42=109&43=111&44=115&49=121&50=125&55=134'