var e=`# Invented for this program. No such camp, road or price exists.
plugstead: 1
title: Camp of an ice road, moved three times a winter
invented: true
story: >-
  From January to early April a camp keeps an ice road open. All of it stands on skids and is dragged along behind the work.
  There is no network and no deep ground; two sets take turns.
rules: { set: ca }

needs:
  needed-by: 2027-12-20
  stay: 36 months
  season: { from: 5 January, to: 5 April, days: 91 }
  shifts:
    - { name: plough A, start: 05:00, days: daily }
    - { name: plough B, start: 17:00, days: daily }
    - { name: flooding crew, start: 20:00, days: daily }
  machines:
    - tag: PL1-5
      what: plough truck, pack A (1500 W coolant, 250 W oil pan, 150 W battery) on one plug
      count: 5
      kind: heater
      use: vehicle-heater
      power: 1900 W
      voltage: 120 V
      outlet: 5-20R
      hours: 5 h
      window: 20:00 to 05:00
      days: 91
      cord: [10 m, 14 m, 18 m, 22 m, 26 m]
      note: The makers sold the pack with a 15 A plug.
    - tag: PL6-9
      what: plough truck, pack B, the same as pack A
      count: 4
      kind: heater
      use: vehicle-heater
      power: 1900 W
      voltage: 120 V
      outlet: 5-20R
      hours: 5 h
      window: 08:00 to 17:00
      days: 91
      cord: [12 m, 16 m, 20 m, 24 m]
      note: The makers sold the pack with a 15 A plug.
    - tag: WT1-3
      what: water truck, coolant element
      count: 3
      machine: WT1-3
      kind: heater
      use: vehicle-heater
      power: 1500 W
      voltage: 120 V
      outlet: 5-20R
      hours: 5 h
      window: 11:00 to 20:00
      days: 91
      cord: [30 m, 34 m, 38 m]
    - tag: WT1-3P
      what: water truck, heater of the pump box
      count: 3
      machine: WT1-3
      kind: heater
      use: vehicle-heater
      power: 1000 W
      voltage: 120 V
      outlet: 5-15R
      hours: 9 h
      window: 11:00 to 20:00
      days: 91
      cord: [30 m, 34 m, 38 m]
    - tag: GR1-2
      what: grader, element made for 240 V
      count: 2
      kind: heater
      use: vehicle-heater
      voltage: 208 V
      outlet: 6-20R
      hours: 6 h
      window: 20:00 to 05:00
      days: 91
      cord: [32 m, 36 m]
      element-plate: { power: 3000 W, voltage: 240 V }
    - tag: SK1-6
      what: sleeper shack, convectors and outlets
      count: 6
      kind: heater
      use: building
      power: 4500 W
      voltage: 208 V
      power-factor: 0.98
      outlet: L14-30R equivalent
      hours: 24 h
      window: all day
      days: 91
      duty: 55 %
      cord: [18 m, 22 m, 26 m, 30 m, 34 m, 38 m]
    - tag: OF1
      what: office shack of the site
      kind: mixed
      use: building
      power: 4800 W
      voltage: 208 V
      power-factor: 0.95
      outlet: L14-30R equivalent
      hours: 24 h
      window: all day
      days: 91
      duty: 50 %
      cord: 16 m
    - tag: KT1
      what: kitchen shack, ovens and boilers
      kind: heater
      use: building
      power: 12000 W
      voltage: 208 V
      phases: 3
      power-factor: 0.98
      outlet: 60 A four-pole pin and sleeve
      hours: 8 h
      window: 04:00 to 22:00
      days: 91
      duty: 50 %
      cord: 24 m
    - tag: HT1
      what: heat trace on the fresh-water line, 40 m of 25 W/m
      kind: heater
      use: heat-trace
      power: 1000 W
      voltage: 120 V
      outlet: hard-wired
      hours: 24 h
      window: all day
      days: 91
      duty: 80 %
      cord: 40 m
    - tag: LP1
      what: flood pump, three-phase
      kind: motor
      use: pump
      power: 4400 W
      voltage: 208 V
      phases: 3
      power-factor: 0.82
      outlet: 30 A four-pole pin and sleeve
      hours: 6 h
      window: 20:00 to 06:00
      days: 60
      cord: 45 m
      motor: { shaft: 5 hp, locked-rotor: 92 A, start: direct }
    - tag: RD1
      what: radio and satellite set
      kind: electronic
      power: 300 W
      voltage: 120 V
      power-factor: 0.9
      outlet: 5-15R
      hours: 24 h
      window: all day
      days: 91
      cord: 14 m
      essential: yes
  forbidden:
    - Two people set it up or take it down in four hours at -40 C, in gloves.
    - No crane within 400 km.
    - Cords and plugs are rated to -50 C.
    - Every plug is handled in mitts.
    - Fuel is hauled, so every litre counts.
    - No earth electrode there will reach a useful value.
  money:
    currency: CAD
    used-box: 5600 CAD
    electrician: 118 CAD per h
    welder: 98 CAD per h
    helper: 62 CAD per h
    shop-overhead: 33 CAD per h
    margin: 26 %
    haul: 14500 CAD
    rent-wanted: by the season, three seasons
    interest: 9 %

facts:
  site:
    place: lakeshore camp
    kind: frozen gravel over ground rich in ice
    latitude: 62.5 deg
    longitude: -113.2 deg
    elevation: 230 m
    access: { road-grade: 3 %, straight-run: 60 m, width: 8 m, overhead-line: none, unload: "skids, dragged by a winch tractor", months-open: while the winter road holds }
    ground: { surface: packed snow on frozen gravel, bearing: 100 kPa, permafrost: yes, slope: 1 % }
    soil: { frozen: 20000 ohm m }
    snow: { ground-load: 2 kPa, depth: 0.7 m, drifting: moderate from the north-west }
    wind: { pressure: 0.45 kPa, winter-from: 320 deg }
    corrosivity: C1
    flood: no
  climate:
    design-min: -43 C
    extreme-min: -49 C
    design-max: 25 C
    mean-by-month: -26.8 -23.6 -17.0 -5.4 5.2 13.2 16.6 14.2 7.1 -1.6 -14.0 -23.0 C
    range-by-month: 8 10 12 12 11 12 12 11 9 6 7 7 K
    humidity-by-month: 68 68 66 66 60 58 62 68 74 82 80 72 %
    wind-by-month: 3.0 3.1 3.4 3.8 3.8 3.7 3.6 3.6 3.7 3.8 3.4 2.9 m/s
    sun-by-month: 0.3 1.2 3.2 5.1 5.9 6.3 5.8 4.4 2.5 1.2 0.5 0.2 kWh/m2
  supply:
    system: 120/208 V three-phase 4-wire
    frequency: 60 Hz
    offers:
      - id: sets
        kind: generator
        what: two sets of which one runs and one rests
        generator: { rated-power: 100 kW, rated: 125 kVA, sets: 2, subtransient: 12 %, neutral-bonded-at-set: yes, fuel: diesel }
        distance: 15 m
        hire: 5200 CAD per 28 days
        note: Changed over by hand with an interlock.
      - id: network
        kind: utility
        what: none within reach
        available: no
    tariff:
      diesel: 2.65 CAD per L

boxes:
  - id: camp
    length: 20 ft
    height: standard
    on-skids: yes
    paint: white
    heated: -10 C
    spare-ways: 20 %
    moves: three each season
`;export{e as default};