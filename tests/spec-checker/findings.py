"""What a check comes to: findings, each with a code of SPEC.md L41, a file and a sentence."""

CODES = frozenset("""
    zip-malformed file-missing file-unlisted file-differs manifest-signature manifest-malformed sums-differ
    key-malformed key-differs checkpoint-signature checkpoint-malformed checkpoint-differs
    leaf-malformed leaf-format-unknown thread-count thread-link thread-tag leaf-repeated inclusion-failed
    entry-malformed entry-differs entry-thread founding-missing founding-differs
    device-unknown head-signature head-malformed author-proof author-missing author-differs entry-set-aside heads-fork
    consistency-failed consistency-missing seen-ahead earlier-signature earlier-differs
    photo-differs photo-missing slip-disagrees slip-malformed slip-later stamp-missing stamp-differs
    format-unknown entry-unread""".split())
NOT_FAILURES = frozenset(("entry-unread",))  # L44


class Findings:
    """L42: everything found, each once."""

    def __init__(self):
        self.items, self.known = [], set()

    def add(self, code, name, detail):
        assert code in CODES, code
        item = (code, name or "-", detail)
        if item not in self.known:
            self.known.add(item)
            self.items.append(item)

    def failing(self):
        return [item for item in self.items if item[0] not in NOT_FAILURES]
