var e=`# Invented for this program: the smallest job there is.
plugstead: 1
title: Two heaters on one circuit
invented: true
rules: { set: us }
needs:
  stay: 12 months
  machines:
    - { tag: H1, what: small tractor heater, kind: heater, use: vehicle-heater, power: 900 W, voltage: 120 V, outlet: 5-20R, hours: 3 h, window: 19:00 to 07:00, days: 100, cord: 15 m }
    - { tag: H2, what: small tractor heater, kind: heater, use: vehicle-heater, power: 900 W, voltage: 120 V, outlet: 5-20R, hours: 3 h, window: 19:00 to 07:00, days: 100, cord: 20 m }
  money: { currency: USD }
facts:
  site: { place: farm yard, elevation: 300 m, latitude: 45 deg, soil: { resistivity: 100 ohm m, frozen: 400 ohm m }, ground: { frost-depth: 1 m } }
  climate: { design-min: -20 C, design-max: 32 C }
  supply:
    system: 120/240 V single-phase 3-wire
    offers:
      - { id: pole, kind: utility, what: service from the road, service: [100 A, 200 A], transformer: { rating: 25 kVA, impedance: 1.7 % }, distance: 20 m, overhead: yes, lead-time: 6 weeks, one-off: 2400 USD }
    tariff: { fixed: 30 USD per month, energy: 0.11 USD per kWh }
boxes:
  - { id: yard, length: 20 ft, height: standard, heated: 0 C, spare-ways: 25 % }
`;export{e as default};