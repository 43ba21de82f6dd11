"""Has templates compiled to plainer code: a field is asked for as in any code, and a text in which
HTML writes nothing otherwise stands on a page as it is."""

from __future__ import annotations

import re
from keyword import iskeyword
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from jinja2 import Environment

# What markupsafe writes otherwise.
_WRITTEN_OTHERWISE = re.compile("[&<>'\"]")


def quick_environment() -> type[Environment]:
    """An environment whose templates are so compiled; jinja2 is imported only here."""
    from jinja2 import Environment
    from jinja2.compiler import CodeGenerator, Frame
    from jinja2.nodes import Expr, Getattr
    from markupsafe import Markup, escape

    holds_any = _WRITTEN_OTHERWISE.search

    def as_html(value: Any) -> str:
        """A value as it stands on a page: what jinja2 calls `escape`, but for its mark."""
        sort = type(value)
        if sort is Markup or (sort is str and holds_any(value) is None):
            text: str = value
            return text
        return str(value) if sort is int else escape(value)

    class PlainCode(CodeGenerator):
        def visit_Getattr(self, node: Getattr, frame: Frame) -> None:
            """A field of a value, which it has: no template asks a mapping for one, and an unknown
            name is an error either way."""
            if iskeyword(node.attr):
                super().visit_Getattr(node, frame)
                return
            self.visit(node.node, frame)
            self.write(f".{node.attr}")

        def _output_child_pre(self, node: Expr, frame: Frame, finalize: Any) -> None:
            if frame.eval_ctx.volatile or not frame.eval_ctx.autoescape or finalize.src:
                super()._output_child_pre(node, frame, finalize)
            else:
                self.write("environment.as_html(")

    class QuickEnvironment(Environment):
        code_generator_class = PlainCode

    QuickEnvironment.as_html = staticmethod(as_html)  # type: ignore[attr-defined]
    return QuickEnvironment
