"""What is sold: boards, papers, woods, glues, tapes, motors, packs, propellers; low / typical / high each."""
