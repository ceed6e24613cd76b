"""What is sold: boards, papers, woods, glues, tapes, motors, packs; low / typical / high each."""
