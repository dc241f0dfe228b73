"""`rinkfold season`."""

from __future__ import annotations

from typing import Annotated

import typer

from ..arguments import AsJson, Names

__all__ = ["season"]


def season(
    folder: Annotated[str, typer.Argument(metavar="DIR", help="The folder with the games' logs.", show_default=False)],
    csv: Annotated[
        str | None, typer.Option("--csv", metavar="OUTDIR", help="Write every table as CSV into this folder.")
    ] = None,
    parquet: Annotated[
        str | None, typer.Option("--parquet", metavar="OUTDIR", help="The same as Parquet; needs pyarrow.")
    ] = None,
    names: Names = False,
    jobs: Annotated[
        str | None, typer.Option("--jobs", metavar="N", help="Processes; as many as processors if not given.")
    ] = None,
    no_progress: Annotated[bool, typer.Option("--no-progress", help="Do not show how far it is.")] = False,
    as_json: AsJson = False,
) -> None:
    """All games of a folder: results, totals for standings, leaders, goalkeepers, penalties, findings.

    Exit code 0: all is well; 1: a game has errors or warnings, is there twice, or cannot be read; 2: there is no such
    folder, or no game in it.
    """
    import sys

    from ..errors import ANSWER_IS_NO
    from ..paper import complain, say, say_json, style_of
    from ..season.files import make_folder, parquet_ready, write_csv, write_parquet
    from ..season.progress import shown_progress, watched
    from ..season.running import logs_in, number_of_jobs, summaries
    from ..season.sheets import sheets
    from ..season.totals import season_of

    processes = number_of_jobs(jobs)
    if parquet is not None:
        parquet_ready()
    files = logs_in(folder)
    for out in (csv, parquet):
        if out is not None:
            make_folder(out)
    rows = summaries(folder, files, processes, names=names)
    if watched(not no_progress):
        rows = shown_progress(rows, len(files), sys.stderr)
    whole = season_of(rows)
    made = sheets(whole, names=names)
    if csv is not None:
        write_csv(made, csv)
        complain(f"Wrote {len(made)} tables as CSV into {csv}.")
    if parquet is not None:
        write_parquet(made, parquet)
        complain(f"Wrote {len(made)} tables as Parquet into {parquet}.")
    if as_json:
        from ..answers.season import season_answer

        say_json(season_answer(whole, made))
    else:
        from ..tables.season import season_lines

        say(season_lines(whole, names=names, style=style_of()))
    if not whole.all_well:
        raise typer.Exit(ANSWER_IS_NO)
