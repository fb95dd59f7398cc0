from jinja2.runtime import LoopContext, Macro, Markup, Namespace, TemplateNotFound, TemplateReference, TemplateRuntimeError, Undefined, escape, identity, internalcode, markup_join, missing, str_join
name = 'count_sheet.xml.j2'

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
    yield '" class="count-sheet" data-line="'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'line')))
    yield '" data-page="portrait">\n  <header>\n    <p class="kicker">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'kicker')))
    yield '</p>\n    <h1>'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'title')))
    yield '</h1>\n    <p class="aside">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'aside')))
    yield '</p>\n  </header>\n  <p data-key="lead">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'lead')))
    yield '</p>\n  <table class="list">\n    <colgroup><col class="name"/><col class="figure"/><col class="figure"/><col class="figure"/><col class="tick"/><col class="tick"/><col class="figure"/></colgroup>\n    <thead>\n      <tr data-key="heads">\n        <th scope="col">'
    yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'count.item')))
    yield '</th>\n        <th scope="col">'
    yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'count.pans')))
    yield '</th>\n        <th scope="col">'
    yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'count.amount')))
    yield '</th>\n        <th scope="col">'
    yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'count.day')))
    yield '</th>\n        <th scope="col">'
    yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'count.keep')))
    yield '</th>\n        <th scope="col">'
    yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'count.bin')))
    yield '</th>\n        <th scope="col">'
    yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'count.by')))
    yield '</th>\n      </tr>\n    </thead>\n    <tbody>\n'
    for l_1_group in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'groups')):
        _loop_vars = {}
        pass
        yield '      <tr class="group" data-key="group.'
        yield (environment.finalize(environment.getattr(l_1_group, 'key')))
        yield '"><th colspan="7">'
        yield (environment.finalize(environment.getattr(l_1_group, 'title')))
        yield '</th></tr>\n'
        for l_2_row in t_1(environment.getattr(l_1_group, 'rows')):
            _loop_vars = {}
            pass
            yield '      <tr data-key="'
            yield (environment.finalize(environment.getattr(l_2_row, 'key')))
            yield '">\n        <th scope="row">'
            if environment.getattr(l_2_row, 'name'):
                pass
                yield (environment.finalize(environment.getattr(l_2_row, 'name')))
                yield '<span class="note">'
                yield (environment.finalize(environment.getattr(l_2_row, 'note')))
                yield '</span>'
            else:
                pass
                yield '<span class="blank" data-width="9"></span> '
                yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'count.card', _loop_vars=_loop_vars)))
                yield '&#160;<span class="blank" data-width="5"></span>'
            yield '</th>\n        <td><span class="blank" data-width="2"></span></td>\n        <td><span class="blank" data-width="4"></span>&#160;'
            yield (environment.finalize(environment.getattr(l_2_row, 'unit')))
            yield '</td>\n        <td><span class="blank" data-width="4"></span></td>\n        <td><span class="tick" data-count="1"></span></td>\n        <td><span class="tick" data-count="1"></span></td>\n        <td><span class="blank" data-width="2"></span></td>\n      </tr>\n'
        l_2_row = missing
    l_1_group = missing
    yield '    </tbody>\n  </table>\n  <p class="note" data-key="rule">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'rule')))
    yield '</p>\n</article>'

blocks = {}
debug_info = '2=20&4=24&5=26&6=28&8=30&13=32&14=34&15=36&16=38&17=40&18=42&19=44&23=46&24=50&25=54&26=58&27=60&29=72&39=77'