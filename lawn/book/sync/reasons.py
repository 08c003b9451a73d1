"""Why an op was set aside, in words a person can read; what an edit runs into is said in `lawn.book.sync.edit`."""

from lawn.contract import content

REUSED = {
    "code": "op_reused",
    "message": "Another entry was already sent under this number. This one is kept, unchanged, but not added.",
}
TROUBLE = {
    "code": "server_trouble",
    "message": "The server could not work with this entry. It is kept, unchanged, for the operator to look at.",
}
UNREADABLE = {
    "code": "unreadable_text",
    "message": "A text in this entry holds characters that cannot be stored. It is kept, unchanged, but not added.",
}
TOO_DEEP = {
    "code": "too_deep",
    "message": f"This entry is nested deeper than {content.MOST_DEPTH} levels. It is kept, unchanged, but not added.",
}
TOO_LARGE = {
    "code": "invalid",
    "message": "A number in this entry is larger than any that can be kept. It is kept, unchanged, but not added.",
}
PENDING = {
    "code": "pending_review",
    "message": "You are no longer in this household. The keeper can still accept this entry.",
}
HOLE = {
    "code": "hole",
    "message": "This number carries nothing: its entry was never sent, and stays on the phone or was discarded there.",
}
