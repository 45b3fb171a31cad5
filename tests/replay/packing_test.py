#!/usr/bin/env python3
"""The packing test of the replay against published packings and a trap.

Equal circles: Wikipedia, Circle packing in a circle, table of proven optima and closed forms (2026-11 copy as quoted in the
workshop's oracles, recomputed there). Three circles of radii 3, 2, 1 need 5: the third lies beside the first two
(the circle around three touching ones would be 6).
"""
import sys

import packing

EQUAL = {2: 2.0, 3: 2.154700538, 4: 2.414213562, 5: 2.701301617, 6: 3.0, 7: 3.0, 8: 3.304764871}
UNEQUAL = {(6.0, 4.0, 2.0): 10.0, (5.0, 5.0, 4.0): 10.1696834716, (5.0, 4.0, 2.8): 9.0}


def main():
    cases = [((1.0,) * n, ratio) for n, ratio in EQUAL.items()] + list(UNEQUAL.items())
    wrong = []
    for circles, least in cases:
        if not packing.fits(circles, least * 1.00001):
            wrong.append(f"{circles} do not fit in {least}")
        if packing.fits(circles, least * 0.999):
            wrong.append(f"{circles} fit in {least * 0.999}")
    print("\n".join(wrong) or f"packing: {len(cases)} least openings in order")
    return bool(wrong)


sys.exit(main())
