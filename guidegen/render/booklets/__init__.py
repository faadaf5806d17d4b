"""Plan and drawings of one size in → booklets, summary and checklist in every form."""
