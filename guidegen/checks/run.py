"""All checks in their order; adding one touches its own file and one line here."""

from collections.abc import Callable, Iterator

from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.checks.names.formerly import check_former_guides, check_formerly
from guidegen.checks.names.names import check_names, check_stock_names
from guidegen.checks.names.papers import check_papers
from guidegen.checks.names.pictures import check_folder, check_pictures
from guidegen.checks.names.rates import check_rates, check_substitutes
from guidegen.checks.names.shapes import check_shapes
from guidegen.checks.names.sizes import check_arithmetic, check_plausible, check_sizes
from guidegen.checks.names.stock import check_cut_lengths, check_stock
from guidegen.checks.report.suppression import check_suppressions
from guidegen.checks.safety.cautions import check_waivers
from guidegen.checks.safety.hazard_words import check_dangerous_tools, check_hazard_words
from guidegen.checks.safety.stock_cautions import check_stock_cautions
from guidegen.checks.steps.cycles import check_needs
from guidegen.checks.steps.drying import check_drying
from guidegen.checks.steps.features import check_features, check_joining
from guidegen.checks.steps.flexing import check_flexing
from guidegen.checks.steps.holding import check_closing, check_holding, check_linking
from guidegen.checks.steps.making import check_making
from guidegen.checks.steps.musts import check_musts
from guidegen.checks.steps.open_lines import check_open_lines
from guidegen.checks.steps.order import check_order_rules
from guidegen.checks.steps.placing import check_placing
from guidegen.checks.steps.sewing import check_taking_in
from guidegen.checks.steps.steps import check_steps
from guidegen.checks.texts.directions import check_directions, check_shared_directions
from guidegen.checks.texts.letters import check_letters, check_shared_letters
from guidegen.checks.texts.licence import check_licence
from guidegen.checks.texts.lists import check_lists
from guidegen.checks.texts.living import check_living
from guidegen.checks.texts.references import check_references, check_shared_texts
from guidegen.checks.texts.translations import check_shared_translations, check_translations
from guidegen.checks.texts.versions import check_versions
from guidegen.problems import Problem, sort_problems

type Check = Callable[[Content, GuideFile], Iterator[Problem]]

CHECKS: tuple[Check, ...] = (
    check_folder,
    check_pictures,
    check_names,
    check_shapes,
    check_sizes,
    check_formerly,
    check_arithmetic,
    check_plausible,
    check_cut_lengths,
    check_rates,
    check_open_lines,
    check_steps,
    check_needs,
    check_making,
    check_holding,
    check_closing,
    check_linking,
    check_placing,
    check_taking_in,
    check_order_rules,
    check_drying,
    check_flexing,
    check_features,
    check_joining,
    check_musts,
    check_hazard_words,
    check_waivers,
    check_references,
    check_lists,
    check_living,
    check_licence,
    check_versions,
    check_translations,
    check_letters,
    check_directions,
    check_suppressions,
)
"""Checks of one guide, without geometry."""

SHARED: tuple[Callable[[Content], Iterator[Problem]], ...] = (
    check_papers,
    check_stock_names,
    check_former_guides,
    check_stock,
    check_substitutes,
    check_stock_cautions,
    check_dangerous_tools,
    check_shared_texts,
    check_shared_translations,
    check_shared_letters,
    check_shared_directions,
)
"""Checks of what all guides share."""


def run_checks(content: Content) -> list[Problem]:
    """Everything that is wrong or worth knowing, sorted."""
    problems = [problem for check in SHARED for problem in check(content)]
    for file in content.guides:
        for check in CHECKS:
            problems.extend(check(content, file))
    return sort_problems(problems)
