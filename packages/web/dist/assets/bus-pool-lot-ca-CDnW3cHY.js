var e=`# Invented for this program. No such town, depot or price exists.
plugstead: 1
title: Lot for spare buses beside a depot
invented: true
story: >-
  A town parks its spare buses in the open. They leave in six waves, the first at 04:40. The street has 600 V; the heaters want 120 V and 208 V.
rules: { set: ca }

needs:
  order-placed: 2027-05-02
  needed-by: 2027-10-20
  stay: 60 months
  season: { from: 1 November, to: 31 March, days: 151, note: "heat is wanted below -10 C, on about 105 of these days" }
  shifts:
    - { name: wave 1, start: 04:40, machines: 6 buses }
    - { name: wave 2, start: 04:57, machines: 6 buses }
    - { name: wave 3, start: 05:15, machines: 6 buses }
    - { name: wave 4, start: 05:30, machines: 6 buses }
    - { name: wave 5, start: 05:48, machines: 4 buses }
    - { name: wave 6, start: 06:10, machines: 4 buses }
  manual-all-on: yes
  machines:
    - tag: BW1
      what: bus of 40 ft, coolant element, wave 1
      count: 6
      machine: BUS1-6
      kind: heater
      use: vehicle-heater
      power: 1500 W
      voltage: 120 V
      outlet: 5-20R
      hours: 4 h
      window: 20:00 to 04:40
      days: 105
      cord: [8 m, 11 m, 14 m, 17 m, 20 m, 23 m]
    - tag: BW2
      what: bus of 40 ft, coolant element, wave 2
      count: 6
      machine: BUS7-12
      kind: heater
      use: vehicle-heater
      power: 1500 W
      voltage: 120 V
      outlet: 5-20R
      hours: 4 h
      window: 20:00 to 04:57
      days: 105
      cord: [8 m, 11 m, 14 m, 17 m, 20 m, 23 m]
    - tag: BW3
      what: bus of 40 ft, coolant element, wave 3
      count: 6
      machine: BUS13-18
      kind: heater
      use: vehicle-heater
      power: 1500 W
      voltage: 120 V
      outlet: 5-20R
      hours: 4 h
      window: 20:00 to 05:15
      days: 105
      cord: [20 m, 23 m, 26 m, 29 m, 32 m, 35 m]
    - tag: BW4
      what: bus of 40 ft, coolant element, wave 4
      count: 6
      machine: BUS19-24
      kind: heater
      use: vehicle-heater
      power: 1500 W
      voltage: 120 V
      outlet: 5-20R
      hours: 4 h
      window: 20:00 to 05:30
      days: 105
      cord: [20 m, 23 m, 26 m, 29 m, 32 m, 35 m]
    - tag: BW5
      what: bus of 40 ft, coolant element, wave 5
      count: 4
      machine: BUS25-28
      kind: heater
      use: vehicle-heater
      power: 1500 W
      voltage: 120 V
      outlet: 5-20R
      hours: 4 h
      window: 20:00 to 05:48
      days: 105
      cord: [32 m, 35 m, 38 m, 41 m]
    - tag: BW6
      what: articulated bus of 60 ft, element for 208 V, wave 6
      count: 4
      machine: BUS29-32
      kind: heater
      use: vehicle-heater
      power: 2250 W
      voltage: 208 V
      outlet: 6-20R
      hours: 5 h
      window: 20:00 to 06:10
      days: 105
      cord: [44 m, 48 m, 52 m, 56 m]
    - tag: BB1-28
      what: bus of 40 ft, battery maintainer on the cord of the coolant element
      count: 28
      machine: BUS1-28
      kind: charger
      power: 120 W
      voltage: 120 V
      power-factor: 0.6
      shares-plug-of: [BW1, BW2, BW3, BW4, BW5]
      outlet: 5-20R
      hours: 10 h
      window: 20:00 to 06:00
      days: 105
      duty: 60 %
      cord: 25 m
      note: "Together 1620 W, 14.2 A on one plug."
    - tag: BB29-32
      what: articulated bus, battery maintainer on a 120 V cord of its own
      count: 4
      machine: BUS29-32
      kind: charger
      power: 120 W
      voltage: 120 V
      power-factor: 0.6
      outlet: 5-15R
      hours: 10 h
      window: 20:00 to 06:00
      days: 105
      duty: 60 %
      cord: 25 m
    - tag: LL1-8
      what: light of the lot
      count: 8
      kind: electronic
      use: general
      power: 180 W
      voltage: 208 V
      power-factor: 0.95
      outlet: hard-wired
      hours: 12 h
      window: 17:00 to 07:00
      days: 300
      cord: [15 m, 20 m, 25 m, 30 m, 35 m, 40 m, 45 m, 50 m]
    - tag: GT1
      what: gate and camera
      kind: electronic
      use: general
      power: 250 W
      voltage: 120 V
      power-factor: 0.9
      outlet: hard-wired
      hours: 24 h
      window: all day
      days: 365
      cord: 40 m
      essential: yes
  forbidden:
    - Ploughs pass both rows, so cords hang off the ground.
    - No bus may leave cold because one device tripped.
  wishes:
    - The depot wants kWh for each row of buses.
    - Staged by waves, with a switch that turns everything on for the coldest week.
  money:
    currency: CAD
    used-box: 4600 CAD
    electrician: 96 CAD per h
    welder: 84 CAD per h
    helper: 52 CAD per h
    shop-overhead: 28 CAD per h
    margin: 25 %
    haul: 1650 CAD
    rent-wanted: 60 months
    interest: 7.8 %

facts:
  site:
    place: paved lot
    latitude: 48.5 deg
    longitude: -88.6 deg
    elevation: 235 m
    holidays: ca-on
    access: { road-grade: 1 %, straight-run: 55 m, width: 8 m, overhead-line: "14.4 kV in the lane, 9.5 m up", unload: tilt-bed, months-open: all year }
    ground: { surface: asphalt on till, bearing: 120 kPa, frost-depth: 2.1 m, slope: 1 % }
    soil: { resistivity: 60 ohm m, frozen: 800 ohm m }
    snow: { ground-load: 2.9 kPa, depth: 0.9 m, drifting: moderate from the north-west }
    wind: { pressure: 0.4 kPa, winter-from: 310 deg }
    corrosivity: C3, road salt
    flood: no
  climate:
    design-min: -33 C
    extreme-min: -40 C
    design-max: 30 C
    mean-by-month: -14.4 -11.8 -5.2 3.0 9.4 14.3 17.7 17.0 11.8 5.0 -3.1 -10.7 C
    range-by-month: 12 13 12 12 13 12 12 12 12 10 9 10 K
    humidity-by-month: 74 71 68 63 62 70 72 75 77 76 79 78 %
    wind-by-month: 3.6 3.5 3.8 4.0 3.9 3.4 3.1 3.0 3.3 3.7 3.9 3.6 m/s
    sun-by-month: 1.5 2.5 3.8 4.9 5.6 5.9 5.9 4.9 3.5 2.2 1.3 1.1 kWh/m2
  supply:
    system: 120/208 V three-phase 4-wire
    frequency: 60 Hz
    offers:
      - id: street-600
        kind: utility
        what: 600 V from the street, with a transformer in the box
        system: 347/600 V three-phase 4-wire
        service: [100 A, 200 A]
        transformer: { rating: 150 kVA, impedance: 3 % }
        distance: 35 m
        lead-time: 18 weeks
        one-off: 22400 CAD
      - id: street-208
        kind: utility
        what: 208 V from a new transformer in the street
        service: [200 A]
        transformer: { rating: 75 kVA, impedance: 2.4 % }
        distance: 35 m
        lead-time: 26 weeks
        one-off: 39800 CAD
      - id: hired-set
        kind: generator
        what: hired set
        generator: { rated-power: 80 kW, fuel: diesel }
        hire: 3400 CAD per 28 days
    # Dry type, inside the box: its heat and its mass belong to the box. Losses at full load are totals.
    own-transformers:
      - { rating: 75 kVA, impedance: 4.5 %, loss-no-load: 260 W, loss-full-load: 1600 W, mass: 330 kg }
      - { rating: 112.5 kVA, impedance: 4.5 %, loss-no-load: 360 W, loss-full-load: 2200 W, mass: 440 kg }
      - { rating: 150 kVA, impedance: 4.5 %, loss-no-load: 450 W, loss-full-load: 2800 W, mass: 560 kg }
    tariff:
      fixed: 48 CAD per month
      energy: 0.094 CAD per kWh
      demand-kva: 14.1 CAD per kVA month
      diesel: 1.52 CAD per L

boxes:
  - id: lot
    length: 20 ft
    height: standard
    paint: pale grey
    heated: -5 C
    spare-ways: 25 %
    moves: none
`;export{e as default};