"""The bench sums: what is worked out at the car, each with its formula, source, limits and drawing.

    from builds.bench.catalogue import SUMS, TOPICS, sum_called
    from builds.bench.frame.read import read, work_out
    from builds.bench.frame.say import answer_said

    work_out(sum_called("corner-weights"), {"fl": "312.5", …}, "metric") -> (Worked or None, errors by slug)

A sum is a module: its formula as plain functions of floats, tested against published values, then
`SUM`, which says what it asks and answers. `frame/` is what all of them share.
"""
