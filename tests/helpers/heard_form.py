"""The form of options as fingers and eyes have it, without a browser."""

from yarncolor.widgets.options.options_bench import OptionsBench


class HeardForm(OptionsBench):
    """A form that is typed into, and whose messages are kept."""

    def __init__(self, editor):
        self.sent = []
        super().__init__(editor)
        editor.watch(self.refresh)
        self.handle({"do": "ready"}, [])

    def send(self, content, *_):
        self.sent.append(content)

    def put(self, name, text):
        self.handle({"do": "put", "name": name, "text": text}, [])
        return self.field(name)

    def field(self, name):
        return self.fields()[name]

    def parts(self):
        return [part for group in self.sent[-1]["groups"] for part in group["parts"]]

    def fields(self):
        return {each["name"]: each for part in self.parts() for each in part["fields"]}

    def under(self, heading):
        return next(part["fields"] for part in self.parts() if part["words"].startswith(heading))

    def needed(self, name):
        """Return what is said to be still needed where a field stands."""
        holds = (part for part in self.parts() if name in [each["name"] for each in part["fields"]])
        return next(holds)["needed"]

    def choose(self, name, words):
        """Choose as a finger does: by the words, of those that are offered."""
        offered = {said: text for text, said in self.field(name)["choices"]}
        return self.put(name, offered[words])
