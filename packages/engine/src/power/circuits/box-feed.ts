import type { RuleSet, System } from '../../rules/index.ts'
import { interruptingAtLeast } from './device.ts'
import { hotC, RISE_M } from './draft.ts'
import { feedAmbientC, feedRun, panelBond, transformerFor } from './feed.ts'
import { feederLeast } from './feeder-drafts.ts'
import type { CircuitsRequest } from './request.ts'

export function feedOf(request: CircuitsRequest, system: System, deviceA: number, neutralA: number) {
  const { rules, box, offer } = request
  const transfer = request.transfer ?? 'none'
  const own = request.transformer ?? null
  const bond = panelBond({
    fed: box.fedFrom !== undefined,
    ownTransformer: own !== null,
    kind: offer.kind,
    earthing: request.earthing ?? 'service bond',
    transfer,
    setBond: rules.setBond(transfer).value,
  })
  const lengthM = box.fedFrom?.lengthM ?? (own === null ? offer.distanceM : RISE_M)
  const common = {
    rules,
    system,
    ambientC: feedAmbientC(lengthM, hotC(request), request.job.site.designMaxC),
    overhead: offer.overhead === true && box.fedFrom === undefined && own === null,
  }
  const protective = bond === 'neutral not bonded here' && request.earthing !== 'TT'
  const run = feedRun({
    ...common,
    deviceA,
    lengthM,
    neutralA,
    protective: protective || own !== null,
    least: box.fedFrom === undefined ? request.grown?.lines?.feed : feederLeast(request, box.id),
  })
  const transformer =
    own === null
      ? null
      : transformerFor({
          ...common,
          lengthM: offer.distanceM,
          protective: true,
          transformer: own,
          primarySystem: primarySystem(rules, own.primaryV, system),
          overhead: offer.overhead === true,
          interruptingKA: interruptingAtLeast(rules, primarySystem(rules, own.primaryV, system), request.interruptingKA, true),
        })
  return { run, bond, transformer }
}

const primarySystem = (rules: RuleSet, volts: number, fallback: System): System =>
  rules.systems.find((s) => Math.abs(s.lineLineV - volts) < 0.05 * volts) ?? fallback
