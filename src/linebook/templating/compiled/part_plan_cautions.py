from jinja2.runtime import LoopContext, Macro, Markup, Namespace, TemplateNotFound, TemplateReference, TemplateRuntimeError, Undefined, escape, identity, internalcode, markup_join, missing, str_join
name = 'part_plan_cautions.xml.j2'

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
    if environment.getattr(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'cautions'), 'last_days'):
        pass
        yield '<h2 data-key="cautions.last">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'cautions.last-title')))
        yield '</h2>\n<p class="safety" data-key="cautions.last-days">'
        l_1_loop = missing
        for l_1_one, l_1_loop in LoopContext(t_1(environment.getattr(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'cautions'), 'last_days')), undefined):
            _loop_vars = {}
            pass
            yield '<span data-key="'
            yield (environment.finalize(environment.getattr(l_1_one, 'key')))
            yield '">'
            yield (environment.finalize(environment.getattr(l_1_one, 'text')))
            yield '</span>'
            if (not environment.getattr(l_1_loop, 'last')):
                pass
                yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'list.semicolon', _loop_vars=_loop_vars)))
        l_1_loop = l_1_one = missing
        yield '</p>\n'
    if environment.getattr(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'cautions'), 'rows'):
        pass
        yield '<h2 data-key="cautions.title">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'cautions.title')))
        yield '</h2>\n<table class="list">\n  <colgroup>\n    <col class="figure"/><col class="name"/><col class="text"/>'
        if environment.getattr(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'cautions'), 'twice'):
            pass
            yield '<col class="text"/>'
        yield '<col class="text"/>\n  </colgroup>\n  <thead>\n    <tr data-key="cautions.heads">\n      <th scope="col">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'cautions.when')))
        yield '</th>\n      <th scope="col">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'cautions.what')))
        yield '</th>\n      <th scope="col">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'cautions.first')))
        yield '</th>\n'
        if environment.getattr(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'cautions'), 'twice'):
            pass
            yield '<th scope="col">'
            yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'cautions.second')))
            yield '</th>'
        yield '      <th scope="col">'
        yield (environment.finalize(environment.call(context, (undefined(name='say') if l_0_say is missing else l_0_say), 'cautions.initials')))
        yield '</th>\n    </tr>\n  </thead>\n  <tbody>\n'
        for l_1_row in t_1(environment.getattr(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'cautions'), 'rows')):
            _loop_vars = {}
            pass
            yield '    <tr data-key="'
            yield (environment.finalize(environment.getattr(l_1_row, 'key')))
            yield '">\n      <td>'
            yield (environment.finalize(environment.getattr(l_1_row, 'when')))
            yield '</td>\n      <th scope="row">'
            yield (environment.finalize(environment.getattr(l_1_row, 'name')))
            yield '<span class="note">'
            yield (environment.finalize(environment.getattr(l_1_row, 'rule')))
            yield '</span></th>\n      <td><span class="blank" data-width="3"></span>&#160;<span class="blank" data-width="2"></span>&#160;'
            yield (environment.finalize(environment.getattr(l_1_row, 'unit')))
            yield '</td>\n'
            if environment.getattr(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'cautions'), 'twice'):
                pass
                yield '<td>'
                if environment.getattr(l_1_row, 'twice'):
                    pass
                    yield '<span class="blank" data-width="3"></span>&#160;<span class="blank" data-width="2"></span>&#160;'
                    yield (environment.finalize(environment.getattr(l_1_row, 'unit')))
                yield '</td>'
            yield '      <td><span class="blank" data-width="2"></span></td>\n    </tr>\n'
        l_1_row = missing
        yield '  </tbody>\n</table>\n<div class="box limit" data-key="cautions.box">\n'
        for l_1_one in t_1(environment.getattr(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'cautions'), 'rules')):
            _loop_vars = {}
            pass
            yield '  <p class="safety" data-key="cautions.'
            yield (environment.finalize(environment.getattr(l_1_one, 'key')))
            yield '">'
            yield (environment.finalize(environment.getattr(l_1_one, 'text')))
            yield '</p>\n'
        l_1_one = missing
        yield '  <p class="source" data-key="cautions.source">'
        yield (environment.finalize(environment.getattr(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'cautions'), 'source')))
        yield '</p>\n</div>\n'

blocks = {}
debug_info = '3=19&4=22&5=25&7=38&8=41&11=43&15=47&16=49&17=51&18=53&19=59&23=61&24=65&25=67&26=69&27=73&28=75&35=86&36=90&38=96'