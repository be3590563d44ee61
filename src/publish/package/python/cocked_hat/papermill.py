"""TypeScript for papermill: how a value is written, and what the cell tagged `parameters` sets.

papermill has no entry point for languages, only for engines, whose modules it imports when it starts. Ours is its own
engine under our name; that the module is imported is what makes `papermill in.ipynb out.ipynb -p seed 7` work.
"""

import json
import re

from papermill.engines import NBClientEngine as Engine
from papermill.models import Parameter
from papermill.translators import Translator, papermill_translators

__all__ = ["Engine", "TypeScriptTranslator"]

NAME = r"[^\W\d][\w$]*"
DECLARATION = re.compile(
    rf"^(?:let|const|var)\s+(?P<name>{NAME})\s*(?::\s*(?P<type>[^=]+?))?\s*=\s*(?P<value>.+?);?\s*(?://\s*(?P<help>.*))?$",
    re.MULTILINE,
)


class TypeScriptTranslator(Translator):
    """What papermill asks of a language."""

    @classmethod
    def translate(cls, val):
        """JSON, which is TypeScript too; dates and the like as text."""
        return json.dumps(val, ensure_ascii=False, default=str)

    @classmethod
    def comment(cls, cmt_str):
        return f"// {cmt_str}".strip()

    @classmethod
    def assign(cls, name, str_val):
        return f"let {name} = {str_val};"

    @classmethod
    def inspect(cls, parameters_cell):
        found = DECLARATION.finditer(parameters_cell["source"])
        return [
            Parameter(
                name=match["name"],
                inferred_type_name=(match["type"] or "None").strip(),
                default=match["value"],
                help=match["help"] or "",
            )
            for match in found
        ]


papermill_translators.register("typescript", TypeScriptTranslator)
