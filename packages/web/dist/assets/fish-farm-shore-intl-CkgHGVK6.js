var e=`# Invented for this program. No such farm, quay or price exists.
plugstead: 1
title: Shore base of a fish farm on a small quay
invented: true
story: >-
  A base on shore feeds and looks after pens at sea. Boats charge at night, blowers run by day, nets are washed on the quay.
  There is salt, rain that drives, and a tide that comes near the deck.
rules: { set: intl }

needs:
  order-placed: 2026-11-15
  needed-by: 2027-03-01
  stay: 36 months
  season: { days: 365, note: all year }
  shifts:
    - { name: boats out, start: 07:00, days: Monday to Saturday }
    - { name: feeding, start: 07:30, days: daily }
  machines:
    - tag: BL1-2
      what: feed blower, 22 kW behind a drive
      count: 2
      kind: drive
      use: pump
      power: 24200 W
      voltage: 400 V
      phases: 3
      power-factor: 0.96
      outlet: 63 A 5-pin
      hours: 7 h
      window: 07:30 to 17:30
      days: 360
      duty: 75 %
      cord: [34 m, 36 m]
      motor: { shaft: 22 kW, start: drive }
    - tag: NW1
      what: net washer, 18.5 kW with soft start
      kind: motor
      use: pump
      power: 20300 W
      voltage: 400 V
      phases: 3
      power-factor: 0.86
      outlet: 63 A 5-pin
      hours: 4 h
      window: 08:00 to 17:00
      days: 180
      duty: 80 %
      cord: 28 m
      motor: { shaft: 18.5 kW, start: soft, start-ratio: 3 }
    - tag: BC1-4
      what: workboat, battery charger
      count: 4
      kind: charger
      power: 3680 W
      voltage: 230 V
      power-factor: 0.98
      outlet: 16 A 3-pin
      hours: 9 h
      window: 18:00 to 06:30
      days: 300
      duty: 70 %
      cord: [45 m, 52 m, 58 m, 64 m]
      leaks-dc: yes
    - tag: IC1
      what: ice plant, 5.5 kW
      kind: motor
      use: pump
      power: 6300 W
      voltage: 400 V
      phases: 3
      power-factor: 0.82
      outlet: 32 A 5-pin
      hours: 20 h
      window: all day
      days: 200
      duty: 80 %
      cord: 22 m
      motor: { shaft: 5.5 kW, start: direct, start-ratio: 6.5 }
    - tag: DC1
      what: compressor for breathing air, 7.5 kW
      kind: motor
      use: pump
      power: 8500 W
      voltage: 400 V
      phases: 3
      power-factor: 0.85
      outlet: 32 A 5-pin
      hours: 3 h
      window: 07:00 to 18:00
      days: 150
      cord: 26 m
      motor: { shaft: 7.5 kW, start: star-delta }
    - tag: WS1
      what: cabin with workshop and mess room
      kind: mixed
      use: building
      power: 9000 W
      voltage: 400 V
      phases: 3
      power-factor: 0.95
      outlet: 32 A 5-pin
      hours: 12 h
      window: 06:00 to 20:00
      days: 360
      duty: 45 %
      cord: 18 m
    - tag: PW1-2
      what: socket for a hot pressure washer
      count: 2
      kind: mixed
      use: tools
      power: 3000 W
      voltage: 230 V
      power-factor: 0.9
      outlet: 16 A 3-pin
      hours: 3 h
      window: 08:00 to 17:00
      days: 250
      cord: [20 m, 40 m]
    - tag: NL1
      what: lights of the quay
      kind: electronic
      use: general
      power: 1200 W
      voltage: 230 V
      power-factor: 0.95
      outlet: hard-wired
      hours: 13 h
      window: 17:00 to 07:30
      days: 365
      cord: 60 m
    - tag: ST1-3
      what: van, engine preheater
      count: 3
      kind: heater
      use: vehicle-heater
      power: 1000 W
      voltage: 230 V
      outlet: 16 A 3-pin
      hours: 2 h
      window: 04:00 to 07:00
      days: 60
      cord: 15 m
  forbidden:
    - The supply company's earth is not taken to the quay.
    - Sockets within reach of spray have shutters and IP67 covers.
    - No lift truck on the quay; the box is lifted by lorry crane, and the straight run is 19 m.
    - The door end does not face south-west.
  wishes:
    - Stainless or hot-dip galvanised strut only.
  money:
    currency: GBP
    used-box: 2600 GBP
    electrician: 58 GBP per h
    welder: 52 GBP per h
    helper: 34 GBP per h
    shop-overhead: 19 GBP per h
    margin: 22 %
    haul: 1150 GBP
    interest: 7.5 %

facts:
  site:
    place: quay and hard-standing
    latitude: 58.1 deg
    longitude: -5.9 deg
    elevation: 4 m
    access: { road-grade: 12 %, straight-run: 19 m, width: 3.6 m, overhead-line: "400/230 V service 5.2 m up, over the gate", unload: lorry crane or barge, months-open: all year }
    ground: { surface: concrete over rubble fill, bearing: 120 kPa, frost-depth: 0.3 m, slope: 1.5 % }
    soil: { resistivity: 90 ohm m, wet: 40 ohm m }
    snow: { ground-load: 0.5 kPa, depth: 0.2 m, drifting: none }
    wind: { pressure: 1.5 kPa, winter-from: 235 deg }
    corrosivity: C5, marine
    flood: { highest-water: 3.4 m, ground-level: 3.6 m, datum: one datum for both; which one was not said }
  climate:
    design-min: -6 C
    extreme-min: -10 C
    design-max: 23 C
    mean-by-month: 4.6 4.5 5.4 7.0 9.6 11.9 13.6 13.7 12.1 9.5 6.9 5.1 C
    range-by-month: 4 5 5 6 7 6 5 5 5 4 4 4 K
    humidity-by-month: 86 84 83 81 80 83 86 87 86 86 86 86 %
    wind-by-month: 8.9 8.6 8.0 6.6 6.0 5.7 5.6 5.8 6.9 7.9 8.3 8.8 m/s
    sun-by-month: 0.4 1.0 2.1 3.8 5.0 5.1 4.6 3.7 2.5 1.2 0.5 0.3 kWh/m2
  supply:
    system: 230/400 V three-phase 4-wire
    frequency: 50 Hz
    offers:
      - id: network-100
        kind: utility
        what: service from the transformer that stands
        service: [100 A]
        transformer: { rating: 200 kVA, impedance: 4.5 % }
        distance: 180 m
        lead-time: 11 weeks
        one-off: 9800 GBP
        earthing: TN-C-S
        earthing-forbidden: yes
        note: The operator forbids its earth for boats and quay.
      - id: network-200
        kind: utility
        what: service from a new transformer
        service: [200 A]
        transformer: { rating: 315 kVA, impedance: 4.5 % }
        distance: 180 m
        lead-time: 34 weeks
        one-off: 61000 GBP
        earthing: TN-C-S
        earthing-forbidden: yes
      - id: hired-set
        kind: generator
        what: hired set
        generator: { rated: 100 kVA, fuel: diesel }
        hire: 2100 GBP per 28 days
    tariff:
      fixed: 35 GBP per month
      energy: 0.31 GBP per kWh
      demand-kva: 2.2 GBP per kVA month
      diesel: 1.12 GBP per L

boxes:
  - id: quay
    length: 20 ft
    height: standard
    paint: pale grey, marine system
    heated: no
    spare-ways: 25 %
    moves: none
    note: Heat only so that it does not sweat.
`;export{e as default};