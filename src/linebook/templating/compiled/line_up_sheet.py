from jinja2.runtime import LoopContext, Macro, Markup, Namespace, TemplateNotFound, TemplateReference, TemplateRuntimeError, Undefined, escape, identity, internalcode, markup_join, missing, str_join
name = 'line_up_sheet.xml.j2'

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
    yield '" class="line-up-sheet" data-page="portrait">\n  <header>\n    <p class="kicker">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'kicker')))
    yield '</p>\n    <h1>'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'title')))
    yield '</h1>\n    <p class="aside">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'aside')))
    yield '</p>\n  </header>\n  <div class="box caution" data-key="headline">\n    <p class="safety" data-key="headline.text">'
    yield (environment.finalize(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'headline')))
    yield '</p>\n  </div>\n'
    l_1_loop = missing
    for l_1_dish, l_1_loop in LoopContext(t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'dishes')), undefined):
        _loop_vars = {}
        pass
        if environment.getattr(l_1_dish, 'course'):
            pass
            yield '<h2 data-key="course.'
            yield (environment.finalize(environment.getattr(l_1_dish, 'key')))
            yield '">'
            yield (environment.finalize(environment.getattr(l_1_dish, 'course')))
            yield '</h2>'
        yield '  <div class="box caution" data-key="'
        yield (environment.finalize(environment.getattr(l_1_dish, 'key')))
        yield '">\n    <h3 data-key="'
        yield (environment.finalize(environment.getattr(l_1_dish, 'key')))
        yield '.name">'
        yield (environment.finalize(environment.getattr(l_1_dish, 'title')))
        yield '<span class="aside">'
        yield (environment.finalize(environment.getattr(l_1_dish, 'call')))
        for l_2_fact in t_1(environment.getattr(l_1_dish, 'facts')):
            l_2_say = resolve('say')
            _loop_vars = {}
            pass
            yield (environment.finalize(environment.call(context, (undefined(name='say') if l_2_say is missing else l_2_say), 'kicker.between', _loop_vars=_loop_vars)))
            yield '<span data-key="'
            yield (environment.finalize(environment.getattr(l_2_fact, 'key')))
            yield '">'
            yield (environment.finalize(environment.getattr(l_2_fact, 'label')))
            yield ' <b>'
            yield (environment.finalize(environment.getattr(l_2_fact, 'value')))
            yield '</b></span>'
        l_2_fact = l_2_say = missing
        yield '</span></h3>\n'
        if environment.getattr(l_1_dish, 'menu_text'):
            pass
            yield '<p data-key="'
            yield (environment.finalize(environment.getattr(l_1_dish, 'key')))
            yield '.menu"><i>'
            yield (environment.finalize(environment.getattr(l_1_dish, 'menu_text')))
            yield '</i></p>'
        if environment.getattr(l_1_dish, 'plain'):
            pass
            yield '<p data-key="'
            yield (environment.finalize(environment.getattr(l_1_dish, 'key')))
            yield '.plain">'
            yield (environment.finalize(environment.getattr(l_1_dish, 'plain')))
            yield '</p>'
        yield '    <dl class="verdicts">\n'
        l_2_loop = missing
        for l_2_line, l_2_loop in LoopContext(t_1(environment.getattr(l_1_dish, 'allergens')), undefined):
            l_2_say = resolve('say')
            _loop_vars = {}
            pass
            yield '      <dt data-key="'
            yield (environment.finalize(environment.getattr(l_1_dish, 'key')))
            yield '.allergens.'
            yield (environment.finalize(environment.getattr(l_2_line, 'key')))
            yield '"><b>'
            yield (environment.finalize(environment.getattr(l_2_line, 'label')))
            yield (environment.finalize(environment.call(context, (undefined(name='say') if l_2_say is missing else l_2_say), 'list.reason', _loop_vars=_loop_vars)))
            yield '</b></dt>\n      <dd>\n'
            l_3_loop = missing
            for l_3_member, l_3_loop in LoopContext(t_1(environment.getattr(l_2_line, 'members')), undefined):
                _loop_vars = {}
                pass
                yield '        <span data-key="'
                yield (environment.finalize(environment.getattr(l_3_member, 'key')))
                yield '">'
                yield (environment.finalize(environment.getattr(l_3_member, 'text')))
                yield '</span>'
                if (not environment.getattr(l_3_loop, 'last')):
                    pass
                    yield (environment.finalize(environment.call(context, (undefined(name='say') if l_2_say is missing else l_2_say), 'list.comma', _loop_vars=_loop_vars)))
            l_3_loop = l_3_member = missing
            if environment.getattr(l_2_line, 'note'):
                pass
                yield (environment.finalize(environment.call(context, (undefined(name='say') if l_2_say is missing else l_2_say), 'list.reason', _loop_vars=_loop_vars)))
                yield (environment.finalize(environment.getattr(l_2_line, 'note')))
            yield '      </dd>\n'
        l_2_loop = l_2_line = l_2_say = missing
        yield '    </dl>\n  </div>\n'
    l_1_loop = l_1_dish = missing
    for l_1_one in t_1(environment.getattr((undefined(name='sheet') if l_0_sheet is missing else l_0_sheet), 'cautions')):
        _loop_vars = {}
        pass
        yield '<p class="caution" data-key="'
        yield (environment.finalize(environment.getattr(l_1_one, 'key')))
        yield '">'
        yield (environment.finalize(environment.getattr(l_1_one, 'text')))
        yield '</p>'
    l_1_one = missing
    yield '</article>'

blocks = {}
debug_info = '3=19&5=21&6=23&7=25&10=27&12=30&13=33&14=41&15=43&16=62&17=69&19=78&20=83&22=91&23=95&25=103&31=111'