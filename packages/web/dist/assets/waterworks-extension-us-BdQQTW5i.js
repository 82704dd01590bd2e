var e=`# Invented for this program. No such waterworks, contractor or price exists.
plugstead: 1
title: Power for the building site of a waterworks
invented: true
story: >-
  A town adds a filter hall to its waterworks while the old one runs on. For twenty-two months the contractor wants two power houses:
  one at the tower crane, one at the yard of the trades. Tankers with chemicals must always get through, and the inspector comes often.
rules: { set: us }

needs:
  needed-by: 14 weeks after order
  stay: 22 months
  season: { days: 365, note: 22 months on end }
  shifts:
    - { name: trades by day, start: 06:30, days: Monday to Saturday }
    - { name: finishing at night, start: 19:00, days: "Monday to Friday, months 14 to 22" }
  machines:
    - tag: SO1-4
      what: site office trailer, heat pump and outlets
      count: 4
      kind: mixed
      use: building
      power: 12000 W
      voltage: 208 V
      element-plate: { power: 15976 W, voltage: 240 V } # built for 240 V; 12 kW is what is left of it at 208 V
      power-factor: 0.9
      outlet: 60 A 125/250 V style four-wire
      hours: 14 h
      window: 05:00 to 19:00
      days: 300
      duty: 50 %
      cord: [18 m, 24 m, 30 m, 36 m]
      fed-by: yard
      note: "The trailers were made for 120/240 V: on 208 V their elements give 75 %."
    - tag: HO1
      what: material hoist, 25 kW behind a drive
      kind: drive
      use: general
      power: 28000 W
      voltage: 208 V
      phases: 3
      power-factor: 0.95
      outlet: hard-wired
      hours: 9 h
      window: 06:30 to 17:30
      days: 250
      duty: 35 %
      cord: 55 m
      motor: { shaft: 25 kW, start: drive }
      fed-by: tower
    - tag: DP1
      what: dewatering pump
      kind: motor
      use: pump
      power: 9100 W
      voltage: 208 V
      phases: 3
      power-factor: 0.86
      outlet: hard-wired
      hours: 24 h
      window: all day
      days: 365
      duty: 60 %
      cord: 62 m
      motor: { shaft: 10 hp, full-load: 30.8 A, locked-rotor: 179 A, start: direct }
      fed-by: tower
    - tag: LB1-12
      what: access platform, charger
      count: 12
      kind: charger
      power: 1500 W
      voltage: 120 V
      power-factor: 0.75
      outlet: 5-20R
      hours: 9 h
      window: 18:00 to 06:00
      days: 250
      duty: 70 %
      cord: [14 m, 16 m, 18 m, 20 m, 22 m, 24 m, 26 m, 28 m, 30 m, 32 m, 34 m, 36 m]
      fed-by: yard
    - tag: CV1-10
      what: way for curing blankets
      count: 10
      kind: heater
      use: general
      power: 1440 W
      voltage: 120 V
      outlet: 5-20R
      hours: 14 h
      window: 17:00 to 08:00
      days: 60
      cord: [30 m, 32 m, 34 m, 36 m, 38 m, 40 m, 42 m, 44 m, 46 m, 48 m]
      fed-by: tower
    - tag: WS1-3
      what: welding set, three-phase
      count: 3
      kind: welder
      use: tools
      power: 13000 W
      voltage: 208 V
      phases: 3
      power-factor: 0.8
      outlet: 60 A four-pole pin and sleeve
      hours: 5 h
      window: 06:30 to 17:30
      days: 220
      duty: 40 %
      cord: [40 m, 48 m, 56 m]
      fed-by: tower
    - tag: TL1-24
      what: way for hand tools
      count: 24
      kind: mixed
      use: tools
      power: 1000 W
      voltage: 120 V
      power-factor: 0.9
      outlet: 5-20R
      hours: 6 h
      window: 06:30 to 17:30
      days: 250
      duty: 30 %
      cord: [10 m, 12 m, 14 m, 16 m, 18 m, 20 m, 22 m, 24 m, 26 m, 28 m, 30 m, 32 m, 34 m, 36 m, 38 m, 40 m, 42 m, 44 m, 46 m, 48 m, 50 m, 52 m, 54 m, 56 m]
      fed-by: yard
    - tag: DH1-4
      what: drying and dehumidifying set
      count: 4
      kind: motor
      use: general
      power: 2400 W
      voltage: 120 V
      power-factor: 0.85
      outlet: 5-30R style
      hours: 20 h
      window: all day
      days: 150
      duty: 90 %
      cord: [28 m, 36 m, 44 m, 52 m]
      fed-by: { first: yard, second: yard }
    - tag: FL1
      what: strings of temporary lights
      kind: electronic
      use: general
      power: 3600 W
      voltage: 120 V
      power-factor: 0.95
      outlet: hard-wired
      hours: 13 h
      window: 17:00 to 07:00
      days: 300
      cord: 60 m
      fed-by: tower
  forbidden:
    - The tanker lane, 4.5 m wide, stays clear.
    - No work near the pump board; its supply is out of bounds.
    - All 120 V 15 A and 20 A outlets of the site have shock protection, and a test log.
    - Tied down against hurricanes before 1 June of each year.
    - Lifts only from 22:00 to 05:00.
  money:
    currency: USD
    used-box: 3900 USD
    electrician: 84 USD per h
    welder: 70 USD per h
    helper: 44 USD per h
    shop-overhead: 24 USD per h
    margin: 23 %
    haul: 950 USD
    rent-wanted: 22 months, two boxes
    interest: 8 %

facts:
  site:
    place: tight building site in a town
    latitude: 29.9 deg
    longitude: -93.4 deg
    elevation: 6 m
    temporary: yes
    access: { road-grade: 1 %, straight-run: 34 m, width: 5 m, overhead-line: "12.5 kV along the back fence, 10.4 m up, 6 m from the yard", unload: crane, hours: street closed 22:00 to 05:00, months-open: all year }
    ground: { surface: compacted fill and mats, bearing: 96 kPa, frost-depth: 0 m, slope: 0.5 %, groundwater: 1 m }
    soil: { resistivity: 35 ohm m }
    snow: { ground-load: 0 kPa, depth: 0 m, drifting: none }
    wind: { pressure: 2.6 kPa, winter-from: 0 deg, note: hurricanes come here }
    corrosivity: C4
    flood: { above-ground: 0.6 m }
    lanes: tanker lane, 4.5 m wide
  climate:
    design-min: 0 C
    extreme-min: -7 C
    design-max: 34.5 C
    mean-by-month: 11.5 13.2 16.8 20.4 24.4 27.4 28.4 28.3 26.1 21.4 16.2 12.6 C
    range-by-month: 11 11 11 11 11 10 10 10 11 12 12 11 K
    humidity-by-month: 80 78 76 76 78 79 79 79 79 77 79 81 %
    wind-by-month: 4.4 4.6 4.7 4.6 4.0 3.5 3.1 3.1 3.5 3.6 4.0 4.3 m/s
    sun-by-month: 2.7 3.4 4.4 5.3 5.9 6.2 5.9 5.6 4.9 4.4 3.2 2.5 kWh/m2
  supply:
    system: 120/208 V three-phase 4-wire
    frequency: 60 Hz
    offers:
      - id: pad
        kind: utility
        what: pad-mounted transformer that feeds nothing else
        service: [400 A, 800 A]
        transformer: { rating: 300 kVA, impedance: 2.2 % }
        distance: 22 m
        lead-time: 16 weeks
        one-off: 27500 USD
        note: The utility gives the fault current in writing when asked.
      - id: hired-set
        kind: generator
        what: hired set
        generator: { rated-power: 150 kW, fuel: diesel, noise-limit: "55 dBA at the bedroom windows over the lane, 26 m away" }
        hire: 6100 USD per 28 days
      - id: pump-board
        kind: neighbour
        what: pump board of the waterworks, backed by a standby set
        available: no
        spare: 0 A
        note: Refused; that supply must not be touched.
    tariff:
      fixed: 58 USD per month
      energy: 0.096 USD per kWh
      demand-kw: 12.4 USD per kW month
      diesel: 1.05 USD per L

# Two boxes and two phases: in month 13 the box of the trades moves behind the pump house. Who feeds what stays as it is.
boxes:
  - { id: tower, what: at the tower crane, length: 20 ft, height: standard, paint: light grey, heated: no, spare-ways: 25 % }
  - { id: yard, what: at the yard of the trades, length: 20 ft, height: standard, paint: light grey, heated: no, spare-ways: 25 %, moves: "once, in month 13" }

phases:
  - { id: first, months: 1 to 12, what: trades yard by the lane, boxes: [tower, yard] }
  - { id: second, months: 13 to 22, what: the yard box stands behind the pump house, boxes: [tower, yard] }
`;export{e as default};