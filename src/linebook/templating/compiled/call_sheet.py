from jinja2.runtime import LoopContext, Macro, Markup, Namespace, TemplateNotFound, TemplateReference, TemplateRuntimeError, Undefined, escape, identity, internalcode, markup_join, missing, str_join
name = 'call_sheet.xml.j2'

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
    yield '<article id="'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'id')))
    yield '" class="call-sheet" data-line="'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'line')))
    yield '" data-page="portrait">\n  <header>\n    <p class="kicker">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'kicker')))
    yield '</p>\n    <h1>'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'title')))
    yield '</h1>\n'
    if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'aside'):
        pass
        yield '<p class="aside">'
        yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'aside')))
        yield '</p>'
    yield '  </header>\n  <p data-key="rule">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'rule')))
    yield '</p>\n'
    if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'called'):
        pass
        yield '  <table class="calls">\n    <colgroup><col class="name"/></colgroup>\n    <tbody>\n'
        for l_1_one in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'called')):
            _loop_vars = {}
            pass
            yield '<tr data-key="'
            yield (environment.finalize(environment.getattr(l_1_one, 'key')))
            yield '"><th scope="row"><b>'
            yield (environment.finalize(environment.getattr(l_1_one, 'text')))
            yield '</b></th></tr>'
        l_1_one = missing
        yield '    </tbody>\n  </table>\n'
    if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'notes'):
        pass
        yield '  <div class="box caution" data-key="notes">\n    <ul>'
        for l_1_note in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'notes')):
            _loop_vars = {}
            pass
            yield '<li data-key="'
            yield (environment.finalize(environment.getattr(l_1_note, 'key')))
            yield '">'
            yield (environment.finalize(environment.getattr(l_1_note, 'text')))
            yield '</li>'
        l_1_note = missing
        yield '</ul>\n  </div>\n'
    if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'groups'):
        pass
        yield '  <table class="calls">\n    <colgroup><col class="figure"/><col class="name"/><col class="text"/></colgroup>\n    <tbody>\n'
        for l_1_group in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'groups')):
            _loop_vars = {}
            pass
            if environment.getattr(l_1_group, 'title'):
                pass
                yield '<tr class="group" data-key="dish.'
                yield (environment.finalize(environment.getattr(l_1_group, 'key')))
                yield '"><th colspan="3">'
                yield (environment.finalize(environment.getattr(l_1_group, 'title')))
                yield '</th></tr>'
            for l_2_row in t_1(environment.getattr(l_1_group, 'rows')):
                _loop_vars = {}
                pass
                yield '      <tr data-key="'
                yield (environment.finalize(environment.getattr(l_2_row, 'key')))
                yield '"><td>'
                yield (environment.finalize(environment.getattr(l_2_row, 'start')))
                yield '</td><th scope="row">'
                yield (environment.finalize(environment.getattr(l_2_row, 'line')))
                yield '</th><td>'
                yield (environment.finalize(environment.getattr(l_2_row, 'what')))
                yield '</td></tr>\n'
            l_2_row = missing
        l_1_group = missing
        yield '    </tbody>\n  </table>\n'
    yield '  <p class="note" data-key="hands">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'hands')))
    yield '</p>\n</article>'

blocks = {}
debug_info = '3=19&5=23&6=25&7=27&9=33&10=35&14=38&18=48&20=51&23=61&27=64&28=67&29=74&30=78&36=90'