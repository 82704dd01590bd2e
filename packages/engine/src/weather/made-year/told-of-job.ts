import { type ClimateFacts, writtenOffsetH } from '../../job/index.ts'
import type { ClimateTold } from './climate.ts'

/** What a job tells of its climate. A time zone told by name stays open: no clock table is in the engine. */
export const toldOfJob = (facts: ClimateFacts, name: string): ClimateTold => ({
  name,
  latitudeDeg: facts.latitudeDeg,
  longitudeDeg: facts.longitudeDeg,
  elevationM: facts.elevationM,
  utcOffsetH: writtenOffsetH(facts.timeZone),
  meanC: facts.meanCByMonth,
  rangeK: facts.rangeKByMonth,
  relativeFrac: facts.humidityFracByMonth,
  over: facts.humidityOver === 'ice' ? 'ice' : 'liquid',
  dewC: null,
  windMPerS: facts.windMPerSByMonth,
  sunKWhPerM2: facts.sunKWhPerM2ByMonth,
  spreadK: null,
  snowLies: null,
  coldC: facts.designMinC,
  hotC: facts.designMaxC,
  winterFromDeg: null,
  windShape: null,
})
