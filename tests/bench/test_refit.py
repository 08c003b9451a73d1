"""The bench's re-fit reaches the app's own worker, is answered, and leaves the main thread free to draw meanwhile."""

from pathlib import Path

from tests.bench import refit

# A call on the main thread draws no frame before it ends; in a worker, about as many as a quiet span as long. A busy
# machine takes frames from both.
SHARE = 0.4
TIMES = 6


def test_frames_are_drawn_while_the_worker_fits_thirty_passes_again(built_frontend: Path) -> None:
    with refit.engine_page(demo_book=False) as phone:
        pairs = [refit.beside_rest(phone, case) for _ in range(TIMES) for case in refit.CASES]
    during = sum(busy.drawn for busy, _ in pairs)
    quiet = sum(rest.drawn for _, rest in pairs)
    assert quiet > len(pairs), "too short to tell"
    assert during >= SHARE * quiet, (during, quiet)
