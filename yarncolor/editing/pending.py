"""What is typed and not right yet, and who wants to hear of it and of steps."""

from collections.abc import Callable

Task = Callable[[], None]


class Pending:
    """What is typed in some places and not right yet, and how each is put back."""

    def __init__(self) -> None:
        self._drops: dict[int, Task] = {}

    def __bool__(self) -> bool:
        return bool(self._drops)

    def put(self, owner: object, drop: Task) -> None:
        """Know of what an owner has, and of how it is dropped.

        Parameters
        ----------
        owner : object
            Who has something typed.
        drop : callable
            Puts it back as it was.
        """
        self._drops[id(owner)] = drop

    def clear(self, owner: object) -> bool:
        """Forget what an owner had; return whether there was anything."""
        return self._drops.pop(id(owner), None) is not None

    def drop_all(self) -> None:
        """Put everything back."""
        drops, self._drops = self._drops, {}
        for drop in drops.values():
            drop()


class Watchers:
    """Who is told of steps; some of them of what is typed and of saving as well."""

    def __init__(self) -> None:
        self._of_steps: list[Task] = []
        self._of_pending: list[Task] = []

    def add(self, task: Task, pending: bool) -> None:
        """Tell one more.

        Parameters
        ----------
        task : callable
            Called at every change.
        pending : bool
            Also when something is typed that is not right yet.
        """
        self._of_steps.append(task)
        if pending:
            self._of_pending.append(task)

    def tell_of_a_step(self) -> None:
        """Call those who show the plan."""
        for task in self._of_steps:
            task()

    def tell_of_pending(self) -> None:
        """Call those who show what is typed, and whether the plan is saved."""
        for task in self._of_pending:
            task()
