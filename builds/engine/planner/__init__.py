"""The planner: from a problem (cars, people, stations, jobs, links) to a plan, checked.

    from builds.engine.planner.problem import Problem, Vehicle, Person, Station, Job, Link, Hold
    from builds.engine.planner.problem import Promise, ProblemError
    from builds.engine.planner.search import plan, first_plan
    from builds.engine.planner.check import faults, score
    from builds.engine.planner.explain import reasons, slack, binding_chain
    from builds.engine.planner.files import read_problem, write_plan

    plan(problem, *, seconds=0, seed=1, tries=None, progress=None, stop=None) -> Plan

Order of the list in, plan out: `place` turns a list of jobs into a plan, `search` looks for a
better list, `check` trusts neither. Times are slots of one axis; see problem.py for every key.
"""
