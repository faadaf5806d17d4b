"""Who approved a guide: said where somebody did, and never taken for granted."""

from dataclasses import replace

from render.page_samples import sample

from guidegen.app.jobs.guides import sheet_head


def test_template_pages_claim_no_approval():
    """Without `approved-by` a template page says so, as the booklet does: not its author's name."""
    content, plan, _ = sample()
    guide = plan.file.guide.model_copy(update={"approved_by": None})
    unapproved = replace(plan, file=replace(plan.file, guide=guide))
    assert sheet_head(content, unapproved.file).approver == "not yet"
    assert sheet_head(content, plan.file).approver == plan.file.guide.approved_by == "B. Tester"
