"""What asks the gardens: this process alone, or Dask on this machine or on a cluster.

Dask is imported when a cluster is asked for, so that all else does without it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from itertools import islice
from typing import TYPE_CHECKING, NoReturn

from leafturn.base.faults import Fault, Unreadable
from leafturn.fleet.one_garden import Asked, ask
from leafturn.fleet.tables import Answered, without_answers

if TYPE_CHECKING:
    from distributed import Client, Future

Engine = Callable[[Iterable[Asked]], Iterator[Answered]]

AHEAD = 4  # gardens under way or waiting for each thread of the cluster, so that none is idle
LEAST_AHEAD = 16
CONNECT_SECONDS = 20
# How the processes of this machine run. Dask has memory given back to the system at every turn, which costs
# half as much again where arrays come and go (0.46 s a garden for 0.31), and watches itself closely, which is
# of no use to a run that nobody watches.
LEAN = {
    "distributed.nanny.pre-spawn-environ": {
        "OMP_NUM_THREADS": 1, "MKL_NUM_THREADS": 1, "OPENBLAS_NUM_THREADS": 1,
    },
    "distributed.worker.profile.enabled": False,
    "distributed.admin.tick.interval": "500ms",
    "distributed.admin.system-monitor.interval": "10s",
    "distributed.admin.system-monitor.gil.enabled": False,
}  # fmt: skip
LACKING = "Dask is not installed, so that only this process can ask."
INSTALL = "Install leafturn[fleet], or ask with --workers 0."


@contextmanager
def this_process() -> Iterator[Engine]:
    """Ask one garden after the other, here."""
    yield lambda gardens: map(ask, gardens)


@contextmanager
def local_cluster(workers: int) -> Iterator[Engine]:
    """Ask in so many processes of this machine; they talk to each other alone, by keys made for the run.

    Raises
    ------
    Unreadable
        If Dask is not installed.
    """
    try:
        import dask
        from distributed import Client, LocalCluster, Security
    except ImportError:
        _refuse("leafturn fleet", LACKING, INSTALL)
    with (
        dask.config.set(LEAN),
        LocalCluster(
            n_workers=workers,
            threads_per_worker=1,
            host="127.0.0.1",
            dashboard_address=None,
            security=Security.temporary(),
            silence_logs=50,
        ) as cluster,
        Client(cluster) as client,
    ):
        yield _engine(client)


@contextmanager
def cluster_at(address: str) -> Iterator[Engine]:
    """Ask by a scheduler that runs already; its workers have leafturn and see the same files.

    Raises
    ------
    Unreadable
        If Dask is not installed, or no scheduler answers.
    """
    try:
        from distributed import Client
    except ImportError:
        _refuse("leafturn fleet", LACKING, INSTALL)
    try:
        client = Client(address, timeout=CONNECT_SECONDS)
    except (OSError, ValueError, TypeError):
        _refuse(address, "no scheduler of Dask answers there.", "Such an address is tcp://host:8786.")
    with client:
        yield _engine(client)


def _engine(client: Client) -> Engine:
    def asked(gardens: Iterable[Asked]) -> Iterator[Answered]:
        from distributed import as_completed

        rest = iter(gardens)
        names: dict[str, str] = {}

        def send(some: Iterable[Asked]) -> list[Future]:
            futures = []
            for garden in some:
                future = client.submit(ask, garden, pure=False)
                names[future.key] = garden.name
                futures.append(future)
            return futures

        under_way = max(LEAST_AHEAD, AHEAD * sum(client.nthreads().values()))
        answers = as_completed(send(islice(rest, under_way)))
        for future in answers:
            yield _answer(future, names.pop(future.key))
            future.release()
            for more in send(islice(rest, 1)):
                answers.add(more)

    return asked


def _answer(future: Future, name: str) -> Answered:
    """The answer; of a garden whose process died with it, again and again, that it did."""
    if future.status == "finished":
        return future.result()  # type: ignore[no-any-return]
    if future.status == "error":
        why = future.exception()
        return without_answers(name, "failed", f"the process that asked it ended: {type(why).__name__}.")
    _refuse(
        "the scheduler", "it has gone; what was answered is written.", "Ask again: it goes on from there."
    )


def _refuse(file: str, message: str, hint: str) -> NoReturn:
    raise Unreadable(Fault(file=file, line=None, message=message, hint=hint))
