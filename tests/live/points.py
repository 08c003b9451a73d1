"""The points of a push at which tests/live/dying.py can end a worker."""

# every write of the push is done, none is committed
BEFORE_COMMIT = "before-commit"
# two ops of the push are answered, none is committed
HALF_WAY = "half-way"
# all is committed and the answer made, not a byte of it sent
BEFORE_ANSWER = "before-answer"
