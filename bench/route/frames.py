"""What frames are made of: hollow stretches, the holes between them and to the outside, devices and lines.

Places in millimetres (x forward, y left, z up, from the middle of the shell), cross-sections in tenths of a
millimetre. Plausible values of no particular frame; common practice, no source.
"""

CORE = ["head_tube", "top_tube_rear", "down_tube_lower", "bb_shell", "seat_tube_upper", "chainstay_left", "chainstay_right"]
# Further stretches and what each of them needs to be there.
OPTIONAL = {
    "steerer": None, "down_tube_upper": None, "seat_tube_lower": None, "top_tube_front": None, "seat_post": None,
    "fork_left": "steerer", "fork_right": "steerer", "seatstay_left": None, "seatstay_right": None,
    "stem": "steerer", "bar_left": "stem", "bar_right": "stem",
}
OF_FAMILY = {"road": [], "gravel": [], "tt": ["steerer", "stem", "ext_left", "ext_right"], "ebike": ["motor_bay"]}
TT_NEEDS_CELLS = 11  # smaller frames have no room for the stretches of a time-trial bar

ORDER = ["bar_left", "bar_right", "stem", "steerer", "head_tube", "fork_left", "fork_right", "top_tube_front", "top_tube_rear",
         "down_tube_upper", "down_tube_lower", "bb_shell", "seat_tube_lower", "seat_tube_upper", "seat_post", "chainstay_left",
         "chainstay_right", "seatstay_left", "seatstay_right", "ext_left", "ext_right", "motor_bay"]

# Middle of a stretch: where a device inside it sits.
MIDDLE = {
    "bar_left": (655, 110, 640), "bar_right": (655, -110, 640), "stem": (620, 5, 630), "steerer": (588, 0, 440),
    "head_tube": (565, 5, 460), "fork_left": (630, 40, 230), "fork_right": (630, -40, 230), "top_tube_front": (370, 0, 485),
    "top_tube_rear": (60, 0, 475), "down_tube_upper": (440, 10, 310), "down_tube_lower": (165, 0, 105), "bb_shell": (0, 0, 5),
    "seat_tube_lower": (-55, 0, 160), "seat_tube_upper": (-120, 0, 400), "seat_post": (-162, 0, 590),
    "chainstay_left": (-220, 45, 40), "chainstay_right": (-220, -45, 40), "seatstay_left": (-270, 45, 270),
    "seatstay_right": (-270, -45, 270), "ext_left": (760, 60, 660), "ext_right": (760, -60, 660), "motor_bay": (20, 20, -30),
}

# Chains of stretches: where one is missing its neighbours meet. Each step: the place and size of the hole after it.
CHAINS = [
    [("bar_left", (647, 20, 641), 120), ("stem", (605, 0, 624), 140), ("steerer", (585, 0, 500), 112), ("head_tube",)],
    [("bar_right", (647, -20, 641), 120), ("stem",)],
    [("ext_left", (655, 40, 650), 97), ("stem",)],
    [("ext_right", (655, -40, 650), 97), ("stem",)],
    [("steerer", (607, 30, 328), 76), ("fork_left",)],
    [("steerer", (600, -30, 330), 76), ("fork_right",)],
    [("head_tube", (543, 0, 480), 97), ("top_tube_front", (200, 0, 485), 92), ("top_tube_rear", (-130, 0, 485), 82), ("seat_tube_upper",)],
    [("head_tube", (563, 0, 378), 132), ("down_tube_upper", (303, 0, 167), 130), ("down_tube_lower", (30, 0, 18), 130), ("bb_shell",)],
    [("bb_shell", (-10, 0, 42), 97), ("seat_tube_lower", (-92, 0, 278), 108), ("seat_tube_upper", (-150, 0, 525), 95), ("seat_post",)],
    [("bb_shell", (-47, 25, 5), 69), ("chainstay_left", (-395, 65, 78), 46), ("seatstay_left",)],
    [("bb_shell", (-47, -25, 5), 69), ("chainstay_right", (-395, -65, 78), 46), ("seatstay_right",)],
    [("seat_tube_upper", (-140, 20, 450), 51), ("seatstay_left",)],
    [("seat_tube_upper", (-140, -20, 450), 51), ("seatstay_right",)],
    [("motor_bay", (52, 0, 3), 115), ("down_tube_lower",)],
    [("bb_shell", (21, 0, -26), 135), ("motor_bay",)],
    [("motor_bay", (-4, 10, 46), 80), ("seat_tube_upper",)],
    [("motor_bay", (-48, 30, -5), 68), ("chainstay_left",)],
]

# Holes to the outside: name, stretches it may be in (the first one there), exclusive, place, size. The first four always.
HOLES = [
    ("bearing_cover_left", ["head_tube"], False, (575, 20, 521), 106),
    ("cs_left_exit", ["chainstay_left"], True, (-382, 55, 73), 60),
    ("cs_right_exit", ["chainstay_right"], True, (-390, -60, 73), 54),
    ("bb_cover", ["bb_shell"], False, (0, 0, -36), 132),
    ("dt_port_left", ["down_tube_upper", "down_tube_lower"], True, (499, 30, 358), 62),
    ("fork_left_exit", ["fork_left"], True, (640, 40, 124), 54),
    ("post_top", ["seat_post", "seat_tube_upper"], True, (-169, 0, 644), 66),
]
ALWAYS_HOLES = 4
MORE_HOLES = [
    ("bearing_cover_right", ["head_tube"], False, (575, -20, 521), 102),
    ("dt_port_right", ["down_tube_upper", "down_tube_lower"], True, (499, -30, 358), 58),
    ("dt_low_port", ["down_tube_lower"], True, (66, 30, 32), 58),
    ("tt_port_left", ["top_tube_front", "top_tube_rear"], True, (480, 25, 500), 55),
    ("tt_port_right", ["top_tube_front", "top_tube_rear"], True, (480, -25, 500), 55),
    ("fork_right_exit", ["fork_right"], True, (640, -40, 124), 52),
    ("steerer_bottom", ["steerer"], False, (610, 0, 316), 76),
    ("stem_cover", ["stem"], False, (622, 0, 604), 110),
    ("bar_left_slot", ["bar_left"], False, (660, 180, 628), 65),
    ("bar_right_slot", ["bar_right"], False, (660, -180, 628), 65),
    ("bay_door", ["down_tube_upper", "down_tube_lower"], True, (325, 40, 203), 165),
    ("st_front_port", ["seat_tube_lower", "seat_tube_upper"], True, (-45, -15, 140), 55),
    ("ss_left_exit", ["seatstay_left"], True, (-330, 50, 180), 50),
    ("ext_left_end", ["ext_left"], False, (860, 60, 690), 62),
    ("ext_right_end", ["ext_right"], False, (860, -60, 690), 62),
    ("motor_cover", ["motor_bay"], False, (30, 50, -50), 120),
]

# Devices with one place outside or in one stretch: name -> (stretch or "", place).
FIXED = {
    "lever_left": ("", (650, 200, 560)), "lever_right": ("", (650, -200, 560)), "caliper_front": ("", (650, 50, 130)),
    "caliper_rear": ("", (-380, 60, 110)), "shifter_left": ("", (655, 150, 570)), "shifter_right": ("", (655, -150, 570)),
    "rear_mech": ("", (-430, -80, 40)), "front_mech": ("", (-60, -50, 150)), "display": ("", (640, 30, 660)),
    "speed_sensor": ("", (-360, 50, 90)), "wheel_lock": ("", (-300, 40, 200)), "rear_light": ("", (-200, 0, 620)),
    "front_light": ("", (670, 0, 560)), "hub_dynamo": ("", (640, -60, 70)), "dropper_lever": ("", (655, 140, 560)),
    "end_shifter_left": ("", (870, 60, 700)), "end_shifter_right": ("", (870, -60, 700)),
    "crank_sensor": ("bb_shell", (0, 20, 0)), "motor": ("motor_bay", (20, 20, -30)),
    "main_battery": ("down_tube_lower", (300, 0, 190)), "dropper_post": ("seat_tube_upper", (-125, 0, 420)),
}
# Devices with a choice: how many seats, stretches inside, holes they may use up (with the stretch behind).
MOVABLE = {
    "junction": ((2, 4), ["stem", "head_tube", "down_tube_lower", "down_tube_upper", "seat_post", "top_tube_rear", "bb_shell"], ["bay_door", "post_top"]),
    "small_battery": ((2, 4), ["seat_post", "seat_tube_upper", "down_tube_upper", "down_tube_lower", "top_tube_rear", "bb_shell"], []),
    "tracker": ((2, 4), ["seat_tube_upper", "top_tube_rear", "down_tube_lower", "bb_shell", "head_tube"], []),
    "charge_socket": ((2, 3), ["seat_tube_upper", "down_tube_lower", "stem", "head_tube"], ["dt_low_port", "tt_port_left", "st_front_port"]),
    "usb_socket": ((2, 3), ["stem", "top_tube_rear"], ["tt_port_right", "post_top", "dt_port_right"]),
}

# Lines: name, first device and its connector, second device and its connector, thickness, kind.
#   hose, housing: cut to length.  wire: offered lengths.  captive: its first end is fixed to the device, one length.
LINES = [
    ("rear_brake_hose", "lever_right", (53, 58), "caliper_rear", (94, 101), (48, 54), "hose"),
    ("front_brake_hose", "lever_left", (53, 59), "caliper_front", (94, 99), (48, 54), "hose"),
    ("shifter_wire_left", "shifter_left", (38, 45), "junction", (37, 45), (23, 29), "wire"),
    ("shifter_wire_right", "shifter_right", (37, 44), "junction", (39, 45), (23, 29), "wire"),
    ("rear_mech_wire", "rear_mech", (38, 41), "small_battery", (38, 45), (24, 28), "wire"),
    ("front_mech_wire", "front_mech", (36, 41), "small_battery", (38, 45), (24, 28), "wire"),
    ("junction_wire", "small_battery", (42, 46), "junction", (40, 45), (25, 29), "wire"),
    ("speed_lead", "speed_sensor", (90, 120), "small_battery", (37, 45), (22, 27), "captive"),
    ("crank_sensor_wire", "crank_sensor", (90, 140), "junction", (38, 46), (22, 27), "captive"),
    ("lock_lead", "wheel_lock", (46, 52), "junction", (40, 46), (27, 30), "wire"),
    ("tail_light_lead", "rear_light", (80, 110), "small_battery", (31, 37), (20, 24), "captive"),
    ("head_light_lead", "front_light", (37, 41), "small_battery", (33, 38), (20, 25), "wire"),
    ("display_lead", "display", (41, 46), "junction", (40, 44), (24, 27), "wire"),
    ("lever_sensor_left", "lever_left", (35, 41), "junction", (38, 45), (22, 26), "wire"),
    ("lever_sensor_right", "lever_right", (35, 41), "junction", (38, 45), (22, 28), "wire"),
    ("tracker_lead", "tracker", (32, 40), "small_battery", (38, 44), (20, 23), "wire"),
    ("charge_lead", "charge_socket", (40, 48), "small_battery", (58, 64), (30, 36), "wire"),
    ("usb_lead", "usb_socket", (34, 38), "small_battery", (58, 64), (24, 28), "wire"),
    ("usb_wire", "hub_dynamo", (33, 38), "usb_socket", (58, 62), (20, 24), "wire"),
    ("dynamo_lead", "hub_dynamo", (33, 38), "front_light", (36, 41), (20, 25), "wire"),
    ("rear_shift_housing", "shifter_right", (45, 49), "rear_mech", (47, 53), (42, 46), "housing"),
    ("front_shift_housing", "shifter_left", (45, 49), "front_mech", (47, 51), (42, 46), "housing"),
    ("dropper_housing", "dropper_lever", (45, 49), "dropper_post", (46, 50), (42, 46), "housing"),
    ("sensor_bridge", "speed_sensor", (38, 43), "display", (37, 43), (21, 28), "wire"),
]
LINES_OF_FAMILY = {
    "tt": [
        ("end_wire_left", "end_shifter_left", (37, 43), "junction", (38, 44), (23, 28), "wire"),
        ("end_wire_right", "end_shifter_right", (37, 43), "junction", (38, 44), (23, 28), "wire"),
    ],
    "ebike": [
        ("charge_loom", "charge_socket", (80, 90), "main_battery", (90, 98), (48, 54), "wire"),
        ("speed_wire", "speed_sensor", (90, 120), "motor", (46, 60), (27, 31), "captive"),
        ("shifter_loom_left", "shifter_left", (40, 45), "motor", (48, 54), (24, 28), "wire"),
        ("display_loom", "display", (42, 48), "motor", (46, 52), (30, 36), "wire"),
        ("light_loom", "rear_light", (38, 43), "motor", (38, 44), (22, 26), "wire"),
    ],
}
ALWAYS = 2  # so many lines of LINES are in every frame
