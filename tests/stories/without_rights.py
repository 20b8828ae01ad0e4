"""The program as someone who may only do what the rights of files say, which root may disregard.

python tests/stories/without_rights.py check GARDEN
"""

from __future__ import annotations

import ctypes
import os
import sys

COMMAND = [sys.executable, __file__]
PR_CAPBSET_DROP = 24  # prctl(2): from the next program started on
CAP_DAC_OVERRIDE, CAP_DAC_READ_SEARCH = 1, 2  # capabilities(7)

if __name__ == "__main__":
    if os.geteuid() == 0:
        for capability in (CAP_DAC_OVERRIDE, CAP_DAC_READ_SEARCH):
            if ctypes.CDLL(None).prctl(PR_CAPBSET_DROP, capability, 0, 0, 0):
                sys.exit("root cannot give up its rights here")
    os.execv(sys.executable, [sys.executable, "-m", "leafturn_tui.command_line", *sys.argv[1:]])
