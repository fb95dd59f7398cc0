from jinja2.runtime import LoopContext, Macro, Markup, Namespace, TemplateNotFound, TemplateReference, TemplateRuntimeError, Undefined, escape, identity, internalcode, markup_join, missing, str_join
name = 'tasting_sheet.xml.j2'

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
    yield '" class="tasting-sheet" data-line="" data-page="portrait">\n  <header>\n    <p class="kicker">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'kicker')))
    yield '</p>\n    <h1>'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'title')))
    yield '</h1>\n    <p class="aside">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'aside')))
    yield '</p>\n  </header>\n  <p class="lead" data-key="when">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'when')))
    yield '</p>\n  <p data-key="decides">'
    yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'tasting.decides')))
    yield ' <span class="blank" data-width="12"></span></p>\n  <table class="list">\n    <colgroup><col class="tick"/><col class="name"/><col class="text"/><col class="text"/></colgroup>\n    <thead>\n      <tr data-key="heads">\n        <th scope="col"></th><th scope="col">'
    yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'tasting.dish')))
    yield '</th><th scope="col">'
    yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'tasting.for')))
    yield '</th><th scope="col">'
    yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'tasting.said')))
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
            yield '">\n        <td><span class="tick" data-count="1"></span></td>\n        <th scope="row">'
            yield (environment.finalize(environment.getattr(l_2_row, 'name')))
            yield '<span class="note">'
            yield (environment.finalize(environment.getattr(l_2_row, 'line')))
            yield '</span></th>\n        <td>'
            yield (environment.finalize(environment.getattr(l_2_row, 'taste')))
            if environment.getattr(l_2_row, 'parts'):
                pass
                yield '<span class="note">'
                yield (environment.finalize(environment.getattr(l_2_row, 'parts')))
                yield '</span>'
            yield '</td>\n        <td><span class="blank" data-width="9"></span></td>\n      </tr>\n'
        l_2_row = missing
    l_1_group = missing
    yield '    </tbody>\n  </table>\n</article>'

blocks = {}
debug_info = '2=20&4=22&5=24&6=26&8=28&9=30&14=32&18=38&19=42&20=46&21=50&23=52&24=56'