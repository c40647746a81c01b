"""`python -m fastkit.compiler [DATA_DIR [DB_PATH]]`: compile the data folder into the database."""

import sys
from pathlib import Path

from fastkit.compiler.build import compile_database, data_version
from fastkit.errors import FastkitError

PACKAGE = Path(__file__).parents[1]


def main(arguments: list[str]) -> int:
    """Compile and print one summary line; faults go to standard error, one a line."""
    if len(arguments) > 2:
        print("expected at most DATA_DIR and DB_PATH", file=sys.stderr)
        return 2
    given = [Path(argument) for argument in arguments]
    data_dir, db_path = (
        *given,
        *[PACKAGE.parent / "data", PACKAGE / "reference" / "reference.db"][len(given) :],
    )
    try:
        rows = compile_database(data_dir, db_path)
    except FastkitError as error:
        print(error, file=sys.stderr)
        return error.status
    print(f"{db_path}: {rows} rows, data version {data_version(data_dir)}")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
