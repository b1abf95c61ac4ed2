"""How forms are drawn: lists of choices here, since three hundred jobs are no three hundred templates."""

from collections.abc import Callable, Iterable, Mapping
from typing import Any

from django.forms.renderers import DjangoTemplates
from django.utils.html import format_html, format_html_join
from django.utils.safestring import SafeString

Widget = Mapping[str, Any]  # as Django's own templates are given it
OF_DJANGO = "django/forms/widgets/{}.html"


def _attrs(attrs: Mapping[str, Any]) -> SafeString:
    return format_html_join("", "{}", ((_attr(*told),) for told in attrs.items() if told[1] is not False))


def _attr(name: str, value: Any) -> SafeString:
    return format_html(" {}", name) if value is True else format_html(' {}="{}"', name, value)


def _all(of: Callable[[Widget], SafeString], options: Iterable[Widget]) -> SafeString:
    return format_html_join("\n", "{}", ((of(option),) for option in options))


def _option(option: Widget) -> SafeString:
    return format_html('<option value="{}"{}>{}</option>', option["value"], _attrs(option["attrs"]), option["label"])


def _select(widget: Widget) -> SafeString:
    return format_html(
        '<select name="{}"{}>\n{}\n</select>',
        widget["name"],
        _attrs(widget["attrs"]),
        format_html_join(
            "\n",
            "{}",
            (
                (format_html('<optgroup label="{}">\n{}\n</optgroup>', name, drawn) if name else drawn,)
                for name, options, _ in widget["optgroups"]
                for drawn in [_all(_option, options)]
            ),
        ),
    )


def _tick(option: Widget) -> SafeString:
    told = option["name"], option["value"], _attrs(option["attrs"])
    drawn = format_html('<input type="{}" name="{}" value="{}"{}>', option["type"], *told)
    if not option["wrap_label"]:
        return drawn
    pk = option["attrs"].get("id")
    return format_html("<label{}>{} {}</label>", _attrs({"for": pk} if pk else {}), drawn, option["label"])


def _ticks(widget: Widget) -> SafeString:
    attrs = {name: widget["attrs"][name] for name in ("id", "class") if widget["attrs"].get(name)}
    return format_html(
        "<div{}>{}</div>",
        _attrs(attrs),
        format_html_join(
            "",
            "{}",
            (
                (format_html("<div><label>{}</label>{}</div>", name, drawn) if name else drawn,)
                for name, options, _ in widget["optgroups"]
                for drawn in [format_html_join("\n", "<div>{}</div>", ((_tick(option),) for option in options))]
            ),
        ),
    )


DRAWN = {
    OF_DJANGO.format(name): draw
    for name, draw in {
        "select": _select,
        "checkbox_select": _ticks,
        "radio": _ticks,
        "checkbox_option": _tick,
        "radio_option": _tick,
    }.items()
}


class FormRenderer(DjangoTemplates):
    """Everything else by the templates that come with Django."""

    def render(self, template_name: str, context: dict[str, Any], request: Any = None) -> str:
        draw = DRAWN.get(template_name)
        return draw(context["widget"]) if draw else super().render(template_name, context, request)
