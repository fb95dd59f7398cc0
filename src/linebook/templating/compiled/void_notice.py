from jinja2.runtime import LoopContext, Macro, Markup, Namespace, TemplateNotFound, TemplateReference, TemplateRuntimeError, Undefined, escape, identity, internalcode, markup_join, missing, str_join
name = 'void_notice.xml.j2'

def root(context, missing=missing, environment=environment):
    resolve = context.resolve_or_missing
    undefined = environment.undefined
    concat = environment.concat
    cond_expr_undefined = Undefined
    if 0: yield None
    l_0_sheet = resolve('sheet')
    l_0_say = resolve('say')
    pass
    yield '<article id="'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'id')))
    yield '" class="void-notice" data-line="" data-page="portrait">\n  <header><h1>'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'replaces')))
    yield '</h1></header>\n  <div class="box caution" data-key="void">\n    <h3 data-key="void.replaces">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'replaces')))
    yield '</h3>\n    <p class="safety" data-key="void.reason">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'reason')))
    yield '</p>\n'
    if environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'aloud'):
        pass
        yield '<p class="safety" data-key="void.aloud">'
        yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'aloud')))
        yield '</p>'
    yield '    <p class="safety" data-key="void.at">'
    yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'void.at')))
    yield '&#160;<span class="blank" data-width="6"></span>&#160;'
    yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'void.by')))
    yield '&#160;<span class="blank" data-width="8"></span></p>\n  </div>\n</article>'

blocks = {}
debug_info = '3=14&4=16&6=18&7=20&8=22&9=28'