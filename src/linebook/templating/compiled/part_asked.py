from jinja2.runtime import LoopContext, Macro, Markup, Namespace, TemplateNotFound, TemplateReference, TemplateRuntimeError, Undefined, escape, identity, internalcode, markup_join, missing, str_join
name = 'part_asked.xml.j2'

def root(context, missing=missing, environment=environment):
    resolve = context.resolve_or_missing
    undefined = environment.undefined
    concat = environment.concat
    cond_expr_undefined = Undefined
    if 0: yield None
    l_0_seat = resolve('seat')
    l_0_say = resolve('say')
    pass
    if environment.getattr((undefined(name='seat') if l_0_seat is missing else l_0_seat), 'degree_open'):
        pass
        yield '<p class="safety" data-key="'
        yield (environment.finalize(environment.getattr((undefined(name='seat') if l_0_seat is missing else l_0_seat), 'key')))
        yield '.degree"><span class="tick"></span> '
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'guest.degree.allergy')))
        yield ' <span class="tick"></span> '
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'guest.degree.intolerance')))
        yield ' <span class="tick"></span> '
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'guest.degree.preference')))
        yield ' <b>'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'guest.degree.ask')))
        yield '</b></p>\n'
    if environment.getattr((undefined(name='seat') if l_0_seat is missing else l_0_seat), 'no_weaker'):
        pass
        yield '<p class="safety" data-key="'
        yield (environment.finalize(environment.getattr((undefined(name='seat') if l_0_seat is missing else l_0_seat), 'key')))
        yield '.no-weaker"><b>'
        yield (environment.finalize(environment.getattr((undefined(name='seat') if l_0_seat is missing else l_0_seat), 'no_weaker')))
        yield '</b></p>'
    yield '<p class="safety" data-key="'
    yield (environment.finalize(environment.getattr((undefined(name='seat') if l_0_seat is missing else l_0_seat), 'key')))
    yield '.taken">'
    yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'guest.taken')))
    yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'list.reason')))
    yield (environment.finalize(environment.getattr((undefined(name='seat') if l_0_seat is missing else l_0_seat), 'taken')))
    yield '</p>'

blocks = {}
debug_info = '2=13&3=16&5=26&6=34'