var e=`# Invented for this program. No such quarry, works or price exists.
plugstead: 1
title: Rock quarry in a hot desert
invented: true
story: >-
  In summer the quarry works at night to get away from the heat. Pumps lift wash water out of a sump, crews charge lamps and tools,
  offices want cooling. Sun on the roof and dust are what this box has to fear.
rules: { set: intl }

needs:
  needed-by: 6 weeks after order
  stay: 36 months
  season: { days: 365, note: all year }
  shifts:
    - { name: night, start: 18:00, days: Saturday to Thursday }
    - { name: maintenance by day, start: 06:00, days: Saturday to Thursday }
  machines:
    - tag: SP1-2
      what: sump pump, 11 kW
      count: 2
      kind: motor
      use: pump
      power: 12400 W
      voltage: 400 V
      phases: 3
      power-factor: 0.85
      outlet: 32 A 5-pin
      hours: 14 h
      window: all day
      days: 300
      cord: [60 m, 70 m]
      motor: { shaft: 11 kW, start: direct, start-ratio: 6.8 }
      note: "Switched by floats: one on duty, one to help."
    - tag: WB1
      what: pump of the wheel wash, 15 kW
      kind: motor
      use: pump
      power: 16800 W
      voltage: 400 V
      phases: 3
      power-factor: 0.86
      outlet: 32 A 5-pin
      hours: 8 h
      window: 17:00 to 06:00
      days: 300
      duty: 60 %
      cord: 50 m
      motor: { shaft: 15 kW, start: soft, start-ratio: 3 }
    - tag: AC1-3
      what: site office, cooling and outlets
      count: 3
      kind: mixed
      use: building
      power: 7000 W
      voltage: 230 V
      power-factor: 0.92
      outlet: 32 A 3-pin
      hours: 24 h
      window: all day
      days: 365
      duty: 60 %
      cord: [15 m, 19 m, 23 m]
      note: Its compressor starts at five times the running current.
    - tag: LT1-6
      what: mobile light tower, charged from the box
      count: 6
      kind: charger
      power: 1800 W
      voltage: 230 V
      power-factor: 0.9
      outlet: 16 A 3-pin
      hours: 7 h
      window: 06:00 to 18:00
      days: 300
      cord: [20 m, 24 m, 28 m, 32 m, 36 m, 40 m]
    - tag: TB1-8
      what: bench for charging hand tools
      count: 8
      kind: charger
      power: 400 W
      voltage: 230 V
      power-factor: 0.7
      outlet: 16 A 3-pin
      hours: 8 h
      window: 06:00 to 18:00
      days: 300
      cord: 10 m
    - tag: SW1-2
      what: welding socket
      count: 2
      kind: welder
      use: tools
      power: 14000 W
      voltage: 400 V
      phases: 3
      power-factor: 0.85
      outlet: 63 A 5-pin
      hours: 3 h
      window: 06:00 to 18:00
      days: 300
      duty: 35 %
      cord: [18 m, 25 m]
    - tag: CH1
      what: chiller for drinking water
      kind: motor
      use: general
      power: 1500 W
      voltage: 230 V
      power-factor: 0.85
      outlet: 16 A 3-pin
      hours: 24 h
      window: all day
      days: 365
      duty: 50 %
      cord: 12 m
    - tag: DS1
      what: spray pump against dust, 4 kW
      kind: motor
      use: pump
      power: 4600 W
      voltage: 400 V
      phases: 3
      power-factor: 0.83
      outlet: 16 A 5-pin
      hours: 10 h
      window: 17:00 to 06:00
      days: 300
      cord: 65 m
      motor: { shaft: 4 kW, start: direct, start-ratio: 6 }
  forbidden:
    - No breaker above 45 C inside.
    - Nobody within 250 m of the blast, Tuesday 09:00 to 10:00; the box stands inside that circle.
    - Inlet filters are changed every week.
    - No copper earthing in sight; buried or clamped tape only.
    - No water for wet cooling.
  money:
    currency: AED
    used-box: 8200 AED
    electrician: 75 AED per h
    welder: 60 AED per h
    helper: 32 AED per h
    shop-overhead: 25 AED per h
    margin: 20 %
    haul: 1800 AED
    interest: 8 %

facts:
  site:
    place: quarry floor
    latitude: 24.3 deg
    longitude: 54.9 deg
    elevation: 310 m
    access: { road-grade: 8 %, straight-run: 70 m, width: 9 m, overhead-line: none within 400 m, unload: mobile crane of 25 t, months-open: all year }
    ground: { surface: blasted rock and fines, bearing: 400 kPa, frost-depth: 0 m, slope: 2 % }
    soil: { dry: 3000 ohm m }
    snow: { ground-load: 0 kPa, depth: 0 m, drifting: sand }
    wind: { pressure: 0.7 kPa, winter-from: 320 deg }
    corrosivity: C3, dust
    flood: { said: a flash flood on the floor now and then }
  climate:
    design-min: 8 C
    extreme-min: 4 C
    design-max: 47 C
    extreme-max: 50 C
    mean-by-month: 18.3 19.8 23.1 27.7 32.6 34.9 36.4 36.2 33.4 29.4 24.3 20.0 C
    range-by-month: 12 12 13 14 14 14 13 13 13 13 12 11 K
    humidity-by-month: 62 58 50 40 33 35 38 42 48 52 57 62 %
    wind-by-month: 3.4 3.7 3.9 3.8 3.8 3.8 3.7 3.5 3.2 3.0 3.0 3.2 m/s
    sun-by-month: 4.2 5.0 5.7 6.6 7.4 7.5 6.9 6.7 6.2 5.4 4.5 3.9 kWh/m2
  supply:
    system: 230/400 V three-phase 4-wire
    frequency: 50 Hz
    offers:
      - id: line-11kv
        kind: utility
        what: 3.4 km of new 11 kV line with a transformer beside the box
        supply-voltage: 11 kV
        service: [400 A]
        transformer: { rating: 250 kVA, impedance: 4 % }
        distance: 30 m # from the transformer to the box, low voltage; the line before it is priced in the one-off
        lead-time: 52 weeks
        one-off: 310000 AED
        earthing: TN-S
      - id: hired-set
        kind: generator
        what: hired set
        generator: { rated: 200 kVA, sets: 1, subtransient: 13 %, fuel: diesel, tank: 800 L }
        hire: 11000 AED per 28 days
        note: Derate for 47 C.
      - id: cement-works
        kind: neighbour
        what: substation 11/0.4 kV of the cement works
        spare-power: 160 kVA
        distance: 900 m
        lead-time: 6 weeks
        energy: 0.18 AED per kWh
        notice-to-cut: 1 h
        earthing: TN-S
        note: Sold through a meter of its own.
    tariff:
      fixed: 60 AED per month
      energy: 0.3 AED per kWh
      demand-kw: 0 AED per kW month
      diesel: 3 AED per L

boxes:
  - id: floor
    length: 20 ft
    height: high
    paint: white, roof reflecting
    heated: no
    cooled: a filtered fan first; an air conditioner only if the year asks for it
    spare-ways: 25 %
    moves: 1
`;export{e as default};