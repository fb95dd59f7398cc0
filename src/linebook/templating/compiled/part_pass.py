from jinja2.runtime import LoopContext, Macro, Markup, Namespace, TemplateNotFound, TemplateReference, TemplateRuntimeError, Undefined, escape, identity, internalcode, markup_join, missing, str_join
name = 'part_pass.xml.j2'

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
    yield '<p class="safety" data-key="pass.read-back">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'read_back')))
    yield '&#160;<span class="blank" data-width="4"></span></p>\n<div class="box limit" data-key="pass">\n  <h3 data-key="pass.title">'
    yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'guest.clean.title')))
    yield '</h3>\n  <table class="log">\n    <colgroup><col class="name"/><col class="text"/><col class="name"/><col class="text"/></colgroup>\n    <tbody>\n'
    for l_1_row in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'clean')):
        _loop_vars = {}
        pass
        yield '      <tr data-key="'
        yield (environment.finalize(environment.getattr(l_1_row, 'key')))
        yield '">\n        <th scope="row">'
        yield (environment.finalize(environment.getattr(l_1_row, 'first')))
        yield '</th><td><span class="blank" data-width="4"></span></td>\n        <th scope="row">'
        yield (environment.finalize(environment.getattr(l_1_row, 'second')))
        yield '</th><td><span class="blank" data-width="4"></span></td>\n      </tr>\n'
    l_1_row = missing
    yield '    </tbody>\n  </table>\n</div>\n<p class="safety" data-key="valid"><b>'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'valid')))
    yield '</b></p>\n<p class="caution" data-key="caution">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'caution')))
    yield '</p>'

blocks = {}
debug_info = '3=20&5=22&9=24&10=28&11=30&12=32&18=36&19=38'