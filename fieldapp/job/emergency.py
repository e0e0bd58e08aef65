"""The words of the emergency card, on the screen and in print: what may have to be done."""

CAUTION = "People first. Leave if there is fire, arcing noise or oil spraying near live parts."
LOCAL = "Local rules and the owner’s emergency plan decide."
ROWS = (
    ("stop_word", "Stop word shouted, emergency stop hit"),
    ("tank_valves", "If safe: return tank valve shut, then suction tank valve"),
    ("control_room", "Control room called: unit, what, who is where"),
    ("oil_on_ground", "Oil on the ground: drain shut, boom out, nobody in the spray"),
    ("keep_away", "Gas alarm, unit trip, relief lifted: nobody near until the engineer says so"),
    ("lightning", "Lightning: joints closed or tank valves shut, everybody out"),
    ("vacuum", "Vacuum running: pump valve shut, no tank valve opened"),
    ("injury", "Injury or burn: 20 min of cooling water, emergency number, place name"),
    ("leaving", "Leaving with something open: told to whom, tank valves locked"),
)
