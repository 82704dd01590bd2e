var e=`# Invented for this program. No such orchard, airstrip or price exists.
plugstead: 1
title: A box from an orchard, wanted at an airstrip in the north
invented: true
story: >-
  Three years ago a box was built for a cherry-packing yard in a mild valley, under the us rules and for 120/240 V. That line has closed.
  A gravel airstrip far north wants the same box before it freezes: ca rules, 120/208 V three-phase, thirty kelvin colder.
  Nothing about it may be taken as still right.
rules: { set: ca }

needs:
  needed-by: 2027-10-01
  stay: 60 months
  season: { from: 10 October, to: 28 April, days: 200 }
  shifts:
    - { name: strip crew, start: 06:00, days: daily }
    - { name: morning departures, start: 08:00, days: daily }
  machines:
    - tag: PW1-2
      what: strip plough, coolant element
      count: 2
      machine: PW1-2
      kind: heater
      use: vehicle-heater
      power: 1500 W
      voltage: 120 V
      outlet: 5-20R
      hours: 4 h
      window: 00:00 to 06:00
      days: 170
      cord: [14 m, 19 m]
    - tag: PW1-2H
      what: strip plough, hydraulic tank element
      count: 2
      machine: PW1-2
      kind: heater
      use: vehicle-heater
      power: 1000 W
      voltage: 120 V
      outlet: 5-15R
      hours: 6 h
      window: 00:00 to 06:00
      days: 170
      cord: [14 m, 19 m]
    - tag: BR1-2
      what: strip sweeper, element made for 240 V
      count: 2
      kind: heater
      use: vehicle-heater
      voltage: 208 V
      outlet: 6-20R
      hours: 5 h
      window: 00:00 to 06:00
      days: 170
      cord: [24 m, 30 m]
      element-plate: { power: 3000 W, voltage: 240 V }
    - tag: CT1
      what: crash tender, kept warm day and night
      kind: heater
      use: vehicle-heater
      power: 1500 W
      voltage: 120 V
      outlet: 5-20R
      hours: 24 h
      window: all day
      days: 200
      duty: 60 %
      cord: 10 m
      essential: yes
    - tag: EP1-4
      what: light aircraft, engine preheater
      count: 4
      kind: heater
      use: vehicle-heater
      power: 1000 W
      voltage: 120 V
      outlet: 5-15R
      hours: 3 h
      window: 04:00 to 08:00
      days: 120
      cord: [30 m, 34 m, 38 m, 42 m]
    - tag: GP1
      what: cart for ground power, three-phase charger
      kind: charger
      power: 9000 W
      voltage: 208 V
      phases: 3
      power-factor: 0.9
      outlet: 60 A four-pole pin and sleeve
      hours: 8 h
      window: 18:00 to 06:00
      days: 200
      duty: 60 %
      cord: 16 m
    - tag: WC1
      what: waiting cabin, heat and outlets
      kind: mixed
      use: building
      power: 5000 W
      voltage: 208 V
      power-factor: 0.95
      outlet: L14-30R
      hours: 24 h
      window: all day
      days: 200
      duty: 50 %
      cord: 22 m
    - tag: BN1
      what: beacon, light of the wind cone, radio
      kind: electronic
      power: 450 W
      voltage: 120 V
      power-factor: 0.92
      outlet: 5-15R
      hours: 24 h
      window: all day
      days: 365
      cord: 12 m
      essential: yes
  forbidden:
    - No hot work on the apron.
    - All work that can be done in the shop is done before 20 September.
  wishes:
    - The list of changes is priced against a new box.
    - The box is changed as little as the findings allow.
  money:
    currency: CAD
    new-box: 61000 CAD
    electrician: 112 CAD per h
    welder: 92 CAD per h
    helper: 58 CAD per h
    shop-overhead: 31 CAD per h
    margin: 24 %
    haul: 9800 CAD
    interest: 8.2 %

facts:
  site:
    place: apron of an airstrip
    latitude: 59.4 deg
    longitude: -127.3 deg
    elevation: 640 m
    holidays: ca-bc
    access: { road-grade: 4 %, straight-run: 48 m, width: 7 m, overhead-line: "none on the apron; 25 kV at the gate, 8.8 m up", unload: tilt-bed, months-open: all year; load limits in April and May }
    ground: { surface: "gravel on till, frozen half the year", bearing: 110 kPa, frost-depth: 3 m, slope: 1 % }
    soil: { resistivity: 350 ohm m, frozen: 6000 ohm m }
    snow: { ground-load: 2.9 kPa, depth: 1.1 m, drifting: light }
    wind: { pressure: 0.35 kPa, winter-from: 290 deg }
    corrosivity: C2
    flood: no
    height-limit: { height: 4 m, said: within 60 m of the edge of the strip }
  climate:
    design-min: -40 C
    extreme-min: -48 C
    design-max: 28 C
    mean-by-month: -21.6 -17.2 -9.6 1.0 8.1 13.3 15.2 13.1 7.6 0.1 -12.8 -19.6 C
    range-by-month: 9 11 13 13 14 14 14 14 12 9 8 9 K
    humidity-by-month: 76 72 63 55 52 58 64 68 72 76 80 78 %
    wind-by-month: 1.8 2.0 2.3 2.6 2.7 2.5 2.2 2.1 2.2 2.3 1.9 1.7 m/s
    sun-by-month: 0.4 1.2 2.8 4.5 5.3 5.8 5.4 4.2 2.5 1.2 0.5 0.3 kWh/m2
  supply:
    system: 120/208 V three-phase 4-wire
    frequency: 60 Hz
    offers:
      - id: strip
        kind: utility
        what: service from the strip's transformer
        service: [200 A]
        transformer: { rating: 112.5 kVA, impedance: 2.1 % }
        distance: 30 m
        lead-time: 9 weeks
        one-off: 16800 CAD
        note: Two phases and neutral can be had for a single-phase panel.
      - id: hired-set
        kind: generator
        what: hired set
        generator: { rated-power: 45 kW, fuel: diesel }
        hire: 3900 CAD per 28 days
    tariff:
      fixed: 52 CAD per month
      energy: 0.168 CAD per kWh
      diesel: 1.95 CAD per L
  # The box as it stands: facts, not choices.
  built:
    built: three years ago
    rules-when-built: us
    system: 120/240 V single-phase 3-wire
    service: 200 A
    interrupting: 10 kA
    ways: 30
    circuits:
      - { outlet: 5-20R, count: 12, device: 20 A, poles: 1, conductor: 12 AWG copper, shock: Class A in the outlet }
      - { outlet: 6-20R, count: 4, device: 20 A, poles: 2, conductor: 12 AWG copper, shock: none }
      - { outlet: L14-30R, count: 1, device: 30 A, poles: 2, conductor: 10 AWG copper, shock: none }
    cords:
      - { count: 12, size: 12/3, length: 15 m, marked-to: -20 C }
    outlet-device-min: -35 C
    electrode: two rods
    electrode-reading: 18 ohm
    neutral-bond: in the main panel
    approval: field label of the old jurisdiction only
    last-full-test: 14 months ago
    defects:
      - The gasket of one door is torn.
      - One outlet trips on its test button only at the second push.
    length: 20 ft
    height: standard
    paint: dark red
    insulation: none
    tare: 2280 kg
    fit-out: 1120 kg
    weighed: 3400 kg
    transport-plate: taken off when the side was cut
    vents: two low and two high, always open, 180 cm2 free each, 3 mm mesh
    heater: none
    lowest-exit: 0.45 m
    free-from: 25 July
    old-place: { rules: us, design-min: -9 C, design-max: 36 C, ground-snow: 0.9 kPa, wind-pressure: 0.8 kPa, fault: 7.4 kA, soil: 45 ohm m }
  # What a tape and a scale said of its steel.
  surveys:
    - box: orchard-box
      by: the yard foreman, tape and crane scale
      on: 2027-06-14
      rib-pitch: 278 mm
      first-rib: { left: 209 mm, right: 217 mm, blind-end: 196 mm }
      inner-width: 2348 mm
      tare: 2280 kg
      weighed: 3400 kg
      plate: { state: removed }
      pockets: { spacing: 2050 mm, width: 360 mm, height: 115 mm }
      crossmember-pitch: 300 mm
      dents:
        - { side: right, from: 3.9 m, up: 0.9 m, width: 420 mm, height: 350 mm, depth: 28 mm }

boxes:
  - id: orchard-box
    what: the box that stands, changed as little as the findings allow
    length: 20 ft
    height: standard
    heated: -10 C
    spare-ways: 10 %
    moves: none
`;export{e as default};