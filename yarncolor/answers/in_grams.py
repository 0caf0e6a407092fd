"""The same answer in grams and metres: for what is kept beside others, or reckons by itself."""

from dataclasses import replace

from yarncolor.answers.answer import Answer


def in_grams(found: Answer) -> Answer:
    """Return an answer said in grams and metres, whatever its plan is said in.

    Nothing is weighed otherwise: what the scale shows stays.
    """
    plan, resolved = found.plan, found.resolved
    if plan.units is None:
        return found
    scale = replace(plan.scale, step_g=resolved.step_g)
    plain = replace(resolved, plan=replace(plan, units=None, scale=scale))
    return replace(found, layout=replace(found.layout, resolved=plain))
