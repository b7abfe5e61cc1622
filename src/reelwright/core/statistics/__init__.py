"""Statistics that the main job uses: tolerance limits, yields, combination, normal chances."""
