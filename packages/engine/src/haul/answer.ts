import type { BoxBody } from '../box/index.ts'
import type { Design, HaulDesign } from '../job/index.ts'
import { source } from '../kernel/index.ts'
import type { RuleSet } from '../rules/index.ts'
import { type Noted, noted } from './finding.ts'
import { liftFindings } from './lift-findings.ts'
import { massFindings } from './mass-findings.ts'
import { pinsOf } from './pins.ts'
import type { HaulAnswer, HaulBox } from './result.ts'
import { roadFindings } from './road-findings.ts'
import { type HaulJob, lengthM, type Setting, settingOf } from './setting.ts'
import { line } from './shelf.ts'
import { allowedFor, METHODS } from './site.ts'
import { methodRow } from './slings.ts'
import { standFindings } from './stand-findings.ts'

/**
 * What do lifting, hauling and setting down ask for? One answer for each box that has both a body and a build. Nothing here is a
 * permission: each finding names who decides.
 */
export function answerHaul(inputs: {
  readonly job: HaulJob
  readonly design: Design
  /** By box. */
  readonly bodies: Readonly<Record<string, BoxBody>>
  readonly rules: RuleSet
}): HaulAnswer {
  const { job, design, rules } = inputs
  const answers = design.builds.flatMap((build) => {
    const body = inputs.bodies[build.box]
    if (body === undefined) return []
    const boxes = design.boxes.filter((one) => one.box === build.box)
    return [
      answerBox(
        settingOf({ job, rules, body, fit: build.fit, skin: build.skin, air: build.air, boxes, snowFrame: build.haul.snowFrame }),
        build.haul,
      ),
    ]
  })
  const all = answers.flatMap((one) => one.noted)
  return {
    findings: all.map((one) => one.finding),
    workings: [...new Map(all.map((one) => [one.working.id, one.working])).values()],
    result: { boxes: answers.map((one) => one.box) },
  }
}

function answerBox(setting: Setting, design: HaulDesign): { readonly noted: readonly Noted[]; readonly box: HaulBox } {
  const { body } = setting
  const lifting = liftFindings(setting, design)
  const road = roadFindings(setting, design)
  const standing = standFindings(setting, design)
  const centres = [setting.empty, setting.fitted, ...(setting.corded === null ? [] : [setting.corded])]
  return {
    noted: [...massFindings(setting, design), ...lifting.noted, ...road.noted, ...standing.noted, ...unreadPins(setting)],
    box: {
      box: body.box,
      items: setting.items,
      centres: centres.map((one) => one.value),
      methods: METHODS.map((method) => ({
        method,
        empty: allowedFor(method, lengthM(body), 'empty'),
        packed: allowedFor(method, lengthM(body), 'packed'),
        why: String(methodRow(method, lengthM(body)).why),
      })),
      design,
      slings: lifting.slings,
      forks: lifting.forks,
      tilt: lifting.tilt,
      securing: road.securing,
      heightOnDeckM: road.heightOnDeckM,
      wind: standing.wind,
      anchors: standing.anchors,
      snow: standing.snow,
      snowFrame: setting.frame,
      pads: standing.pads,
    },
  }
}

/** A decision of a person that cannot be read is said, never passed over. */
function unreadPins(setting: Setting): readonly Noted[] {
  return pinsOf(setting.job, setting.body.box).unread.map(({ pin, wanted }) =>
    noted({
      code: 'haul/pin',
      subject: pin.path,
      verdict: 'unknown',
      basis: 'house',
      said: `“${String(pin.value)}”, pinned by ${pin.by} at “${pin.path}”, cannot be read and was not taken; wanted is ${wanted}.`,
      title: `Pin ${pin.path}`,
      steps: [line('pin', pin.path, [], String(pin.value), '', source(`pinned by ${pin.by}`, 'told'))],
    }),
  )
}
