from jinja2.runtime import LoopContext, Macro, Markup, Namespace, TemplateNotFound, TemplateReference, TemplateRuntimeError, Undefined, escape, identity, internalcode, markup_join, missing, str_join
name = 'tasting_notes.xml.j2'

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
    yield '" class="tasting-notes" data-line="'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'line')))
    yield '" data-page="portrait">\n  <header>\n    <p class="kicker">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'kicker')))
    yield '</p>\n    <h1>'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'title')))
    yield '</h1>\n    <p class="aside">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'aside')))
    yield '</p>\n  </header>\n  <p class="quiet" data-key="lead">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'lead')))
    yield '</p>\n'
    for l_1_group in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'groups')):
        l_1_say = resolve('say')
        _loop_vars = {}
        pass
        yield '  <h2 data-key="'
        yield (environment.finalize(environment.getattr(l_1_group, 'key')))
        yield '">'
        yield (environment.finalize(environment.getattr(l_1_group, 'title')))
        yield '</h2>\n  <table class="list">\n    <colgroup><col class="name"/><col class="text"/><col class="text"/><col class="text"/></colgroup>\n    <thead>\n      <tr data-key="'
        yield (environment.finalize(environment.getattr(l_1_group, 'key')))
        yield '.heads">\n        <th scope="col">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_1_say is missing else l_1_say), 'notes.head.day', _loop_vars=_loop_vars)))
        yield '</th>\n        <th scope="col">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_1_say is missing else l_1_say), 'notes.head.tasted', _loop_vars=_loop_vars)))
        yield '</th>\n        <th scope="col">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_1_say is missing else l_1_say), 'notes.head.changed', _loop_vars=_loop_vars)))
        yield '</th>\n        <th scope="col">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_1_say is missing else l_1_say), 'notes.head.by', _loop_vars=_loop_vars)))
        yield '</th>\n      </tr>\n    </thead>\n    <tbody>\n'
        for l_2_card in t_1(environment.getattr(l_1_group, 'cards')):
            _loop_vars = {}
            pass
            yield '      <tr class="group" data-key="card.'
            yield (environment.finalize(environment.getattr(l_2_card, 'key')))
            yield '"><th colspan="4">'
            yield (environment.finalize(environment.getattr(l_2_card, 'name')))
            yield '<span class="note">'
            yield (environment.finalize(environment.getattr(l_2_card, 'aside')))
            yield '</span></th></tr>\n      <tr data-key="write.'
            yield (environment.finalize(environment.getattr(l_2_card, 'key')))
            yield '">\n        <th scope="row"><span class="blank" data-width="5"></span></th>\n        <td><span class="blank" data-width="12"></span></td>\n        <td><span class="blank" data-width="10"></span></td>\n        <td><span class="blank" data-width="3"></span></td>\n      </tr>\n'
            for l_3_row in t_1(environment.getattr(l_2_card, 'rows')):
                _loop_vars = {}
                pass
                yield '      <tr data-key="'
                yield (environment.finalize(environment.getattr(l_3_row, 'key')))
                yield '">\n        <th scope="row">'
                yield (environment.finalize(environment.getattr(l_3_row, 'day')))
                yield '</th>\n        <td>'
                yield (environment.finalize(environment.getattr(l_3_row, 'tasted')))
                yield '</td>\n        <td>'
                yield (environment.finalize(environment.getattr(l_3_row, 'changed')))
                yield '</td>\n        <td>'
                yield (environment.finalize(environment.getattr(l_3_row, 'by')))
                yield '</td>\n      </tr>\n'
            l_3_row = missing
        l_2_card = missing
        yield '    </tbody>\n  </table>\n'
    l_1_group = l_1_say = missing
    yield '</article>'

blocks = {}
debug_info = '2=19&4=23&5=25&6=27&8=29&9=31&10=36&14=40&15=42&16=44&17=46&18=48&22=50&23=54&24=60&30=62&31=66&32=68&33=70&34=72&35=74'