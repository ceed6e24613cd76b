"""How many processes a long job may be spread over."""

import os
import sys
import threading


def hands_for(jobs: int, *, worth: int) -> int:
    """Processes to fork for a job: all cores where that is safe and pays, else one.

    Forking is quick but wants a process of one thread; elsewhere one process does it all.

    Args:
        jobs: Pieces of the job. [-]
        worth: Pieces from which a second process pays. [-]

    Returns:
        At least one. [-]

    Source:
        Definition.

    Example:
        >>> hands_for(3, worth=20)
        1
    """
    if jobs < worth or not forks_safely():
        return 1
    return os.cpu_count() or 1


def forks_safely() -> bool:
    """Whether this process may be forked: Linux, one thread.

    Returns:
        True or False. [-]

    Source:
        Python's documentation of multiprocessing: a fork copies only the calling thread.

    Example:
        >>> forks_safely() in (True, False)
        True
    """
    return sys.platform == "linux" and threading.active_count() == 1
