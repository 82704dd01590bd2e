var e=`# Invented for this program. No such hill, crew or price exists.
plugstead: 1
title: Groomer yard half way up a ski hill
invented: true
story: >-
  Seven groomers park nose-in, two rows deep, on a pad half way up the hill. One crew goes out at 16:30, the other at midnight.
  The hill asks for warm engines, a dry box with light in it, and no digging once September is over.
rules: { set: us }

needs:
  order-placed: 2027-07-10
  needed-by: 2027-11-01
  stay: 36 months
  season: { from: 15 November, to: 20 April, days: 156 }
  shifts:
    - { name: evening grooming, start: 16:30, days: daily }
    - { name: night grooming, start: 00:00, days: daily }
    - { name: loader, start: 05:00, days: daily }
    - { name: day crew, start: 07:00, days: daily }
  machines:
    # Each groomer has two elements on two cords: coolant and hydraulic tank.
    - tag: G1-4C
      what: groomer, coolant element, evening crew
      machine: G1-4
      count: 4
      kind: heater
      use: vehicle-heater
      power: 1500 W
      voltage: 120 V
      outlet: 5-20R
      hours: 3 h
      window: 10:30 to 16:30
      days: 156
      cord: [12 m, 18 m, 24 m, 30 m]
    - tag: G1-4H
      what: groomer, hydraulic tank element, evening crew
      machine: G1-4
      count: 4
      kind: heater
      use: vehicle-heater
      power: 1000 W
      voltage: 120 V
      outlet: 5-15R
      hours: 4 h
      window: 10:30 to 16:30
      days: 156
      cord: [12 m, 18 m, 24 m, 30 m]
    - tag: G5-7C
      what: groomer, coolant element, night crew
      machine: G5-7
      count: 3
      kind: heater
      use: vehicle-heater
      power: 1500 W
      voltage: 120 V
      outlet: 5-20R
      hours: 3 h
      window: 18:00 to 24:00
      days: 156
      cord: [14 m, 20 m, 26 m]
    - tag: G5-7H
      what: groomer, hydraulic tank element, night crew
      machine: G5-7
      count: 3
      kind: heater
      use: vehicle-heater
      power: 1000 W
      voltage: 120 V
      outlet: 5-15R
      hours: 4 h
      window: 18:00 to 24:00
      days: 156
      cord: [14 m, 20 m, 26 m]
    - tag: LD1
      what: blower loader, engine heater
      kind: heater
      use: vehicle-heater
      power: 2250 W
      voltage: 240 V
      outlet: 6-20R
      hours: 4 h
      window: 23:00 to 05:00
      days: 156
      cord: 38 m
    - tag: TK1-4
      what: crew truck, block heater
      count: 4
      kind: heater
      use: vehicle-heater
      power: 750 W
      voltage: 120 V
      outlet: 5-15R
      hours: 3 h
      window: 01:00 to 07:00
      days: 156
      cord: [20 m, 23 m, 26 m, 29 m]
    - tag: SM1-5
      what: over-snow vehicle, battery maintainer
      count: 5
      kind: charger
      power: 150 W
      voltage: 120 V
      power-factor: 0.65
      outlet: 5-15R
      hours: 14 h
      window: 17:00 to 07:00
      days: 156
      cord: 8 m
    - tag: FP1
      what: fuel transfer pump
      kind: motor
      use: pump
      power: 900 W
      voltage: 120 V
      power-factor: 0.57
      outlet: hard-wired
      hours: 1 h
      window: 06:00 to 18:00
      days: 156
      cord: 16 m
      motor: { shaft: 3/4 hp, full-load: 13.8 A, full-load-voltage: 115 V, code-letter: K, start: direct }
      note: The classified area at the tank is a design of its own.
    - tag: RP1
      what: radio repeater and weather mast
      kind: electronic
      power: 200 W
      voltage: 120 V
      power-factor: 0.95
      outlet: 5-15R
      hours: 24 h
      window: all day
      days: 365
      cord: 10 m
      essential: yes
    - tag: TS1
      what: tool-shed convector
      kind: heater
      use: building
      power: 1500 W
      voltage: 120 V
      outlet: 5-20R
      hours: 24 h
      window: all day
      days: 156
      duty: 45 %
      cord: 22 m
    - tag: WR1
      what: welder receptacle
      kind: welder
      use: tools
      power: 9600 W
      voltage: 240 V
      power-factor: 0.8
      outlet: 6-50R
      hours: 2 h
      window: 07:00 to 17:00
      days: 80
      duty: 40 %
      cord: 12 m
  forbidden:
    - Trucks cannot reach the pad from 15 October.
    - No trench after 30 September.
    - Vents and cord exits stay above 2.8 m of snow, or in a ploughed lane.
    - No generator near the lodge between 22:00 and 06:00.
    - The roof must not be drilled.
  money:
    currency: USD
    used-box: 4200 USD
    electrician: 92 USD per h
    welder: 78 USD per h
    helper: 48 USD per h
    shop-overhead: 26 USD per h
    margin: 24 %
    haul: 2600 USD
    rent-wanted: 36 months
    interest: 8.5 %

facts:
  site:
    place: alpine yard
    latitude: 46.2 deg
    longitude: -114.6 deg
    elevation: 2450 m
    access:
      road-grade: 9 %
      straight-run: 26 m
      width: 4.2 m
      overhead-line: 7.2 kV line crosses the access 40 m before the pad, 6.9 m up
      unload: tilt-bed
      months-open: May to October
    ground: { surface: crushed rock, bearing: 150 kPa, frost-depth: 1.5 m, slope: 2 %, groundwater: 4 m }
    soil: { resistivity: 600 ohm m, frozen: 4000 ohm m }
    snow: { ground-load: 9.6 kPa, depth: 2.8 m, drifting: strong from the west-south-west }
    wind: { pressure: 1.1 kPa, winter-from: 250 deg }
    corrosivity: C2
    flood: no
  climate:
    design-min: -31 C
    extreme-min: -38 C
    design-max: 29 C
    mean-by-month: -9.5 -8.8 -5.6 -1.2 4.1 9.0 13.4 12.8 8.1 2.2 -5.1 -9.6 C
    range-by-month: 9 10 11 12 12 13 15 15 14 12 9 8 K
    humidity-by-month: 74 72 70 66 64 60 52 53 58 66 74 75 %
    wind-by-month: 4.9 4.8 4.6 4.4 4.0 3.6 3.3 3.3 3.6 4.2 4.7 4.9 m/s
    sun-by-month: 1.7 2.7 4.1 5.3 6.1 6.7 7.0 6.0 4.7 3.0 1.8 1.4 kWh/m2
  supply:
    system: 120/240 V single-phase 3-wire
    frequency: 60 Hz
    offers:
      - id: pole
        kind: utility
        what: overhead service from the hill's line
        service: [200 A, 400 A]
        transformer: { rating: 75 kVA, impedance: 1.8 % }
        distance: 28 m
        overhead: yes
        lead-time: 13 weeks
        one-off: 18500 USD
        note: The meter stands on the customer's pole, not on the box. A crew cannot reach the pad after the first snow.
      - id: hired-set
        kind: generator
        what: hired set, as an interim
        generator: { rated-power: 60 kW, fuel: diesel }
        hire: 2950 USD per 28 days
        quiet-hours: 22:00 to 06:00
        note: Derate for altitude.
      - id: pump-house
        kind: neighbour
        what: panel of the pump house
        spare: 70 A
        distance: 140 m
        note: Same owner; a meter of its own is wanted.
    tariff:
      fixed: 42 USD per month
      energy: 0.112 USD per kWh
      demand-kw: 9.8 USD per kW month
      diesel: 1.28 USD per L

boxes:
  - id: yard
    length: 20 ft
    height: standard
    paint: dark green, as the hill demands
    heated: 0 C
    spare-ways: 25 %
    moves: none
`;export{e as default};