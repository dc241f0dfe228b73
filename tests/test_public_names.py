"""What `rinkfold.timeline` offers."""

import rinkfold.timeline
from rinkfold.timeline import record


def test_every_public_name_is_there() -> None:
    """Each name in `__all__` can be had, is not a module, and is sorted in its list as ruff sorts."""
    for package in (rinkfold.timeline, record):
        for name in package.__all__:
            assert type(getattr(package, name)).__name__ != "module", name
    assert len(set(rinkfold.timeline.__all__)) == len(rinkfold.timeline.__all__)


def test_an_unknown_name_is_refused() -> None:
    """A name that is not public is an AttributeError, as of any module."""
    assert not hasattr(rinkfold.timeline, "no_such_name")
