"""A slip of the program itself, told in one plain line: no traceback reaches a grower."""

from __future__ import annotations

import os


def slip_words(error: Exception) -> str:
    """What went wrong and where, for the one who mends it. BENCHMATE_TRACE=1 raises it instead, with all its traces."""
    if os.environ.get("BENCHMATE_TRACE") == "1":
        raise error
    place, trace = "", error.__traceback__
    while trace is not None:
        frame = trace.tb_frame
        if "benchmate" in frame.f_code.co_filename:
            place = f" at {os.path.basename(frame.f_code.co_filename)}:{trace.tb_lineno}"
        trace = trace.tb_next
    return (
        f"a slip in benchmate itself ({type(error).__name__}{place}); what was logged before it stands, "
        "and BENCHMATE_TRACE=1 shows the whole of it"
    )
