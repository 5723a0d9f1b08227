"""Reading a served page as a browser without script would: the fields of its form with what is in them."""

from html.parser import HTMLParser


class FormReader(HTMLParser):
    """Collects what a browser would send when the form's main button is pressed."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.sent: dict[str, str] = {}
        self.ids: list[str] = []
        self.tags: list[str] = []
        self.attributes: list[tuple[str, str, str | None]] = []
        self._select: str | None = None
        self._options: list[tuple[bool, str | None, str]] = []
        self._area: str | None = None
        self._patterns = 0
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = dict(attrs)
        self.tags.append(tag)
        self.attributes += [(tag, name, value) for name, value in attrs]
        self._patterns += tag == "template"
        if self._patterns:
            return
        self.ids += [value for name, value in attrs if name == "id" and value is not None]
        if tag == "input" and given.get("name"):
            self.sent[str(given["name"])] = given.get("value") or ""
        elif tag == "select":
            self._select, self._options = given.get("name"), []
        elif tag == "option":
            self._options.append(("selected" in given, given.get("value"), ""))
        elif tag == "textarea":
            self._area = given.get("name")
            self.sent[str(self._area)] = ""

    def handle_data(self, data: str) -> None:
        if self._area is not None:
            self.sent[self._area] += data
        elif self._select is not None and self._options:
            chosen, value, text = self._options[-1]
            self._options[-1] = (chosen, value, text + data.strip())

    def handle_endtag(self, tag: str) -> None:
        self._patterns -= tag == "template"
        if tag == "select" and self._select is not None:
            first = next((one for one in self._options if one[0]), self._options[0])
            self.sent[self._select] = first[2] if first[1] is None else first[1]
            self._select = None
        elif tag == "textarea":
            self._area = None
