"""The planner: from a problem (cars, people, stations, jobs, links) to a plan, checked.

    from builds.planner.problem import Problem, Vehicle, Person, Station, Job, Link, Hold
    from builds.planner.problem import Promise, ProblemError
    from builds.planner.search import plan
    from builds.planner.check import faults, score
    from builds.planner.explain import reasons, binding_chain
    from builds.planner.files import read_problem, write_plan

    plan(problem, *, seconds=0, seed=1, tries=None, progress=None, stop=None, when=...) -> Plan
    reasons(problem, plan, when) -> {job id: StartReason(kind, refs, sentence)}
    binding_chain(problem, plan, job id, when) -> (StartReason, ...) from the job back to now

`when` writes the moment a slot begins, in the garage's own time, for the sentences.

Order of the list in, plan out: `place` turns a list of jobs into a plan, `search` looks for a
better list, `check` trusts neither. Times are slots of one axis; see problem.py for every key.
"""
