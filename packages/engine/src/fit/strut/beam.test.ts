import { describe, expect, test } from 'vitest'
import { seeded } from '../../kernel/index.ts'
import { type Beam, beamAnswer } from './beam.ts'

const EI = 16_000
const beam = (over: Partial<Beam>): Beam => ({
  lengthM: 3,
  supportsM: [0, 3],
  loads: [],
  uniformNPerM: 0,
  stiffnessNm2: EI,
  ...over,
})
const near = (ours: number, theirs: number) =>
  expect(Math.abs(ours - theirs)).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(theirs)))

describe('closed forms of beam theory', () => {
  test('simple span: uniform wL²/8 and 5wL⁴/384EI; point load Pab/L and its deflection off the middle', () => {
    const uniform = beamAnswer(beam({ uniformNPerM: 400 }))
    near(uniform.mostMomentNm, (400 * 9) / 8)
    near(uniform.spans[0]!.deflectionM!, (5 * 400 * 81) / (384 * EI))
    const [a, b, l] = [1, 2, 3]
    const point = beamAnswer(beam({ loads: [{ atM: a, forceN: 500 }] }))
    near(point.mostMomentNm, (500 * a * b) / l)
    near(point.reactionsN[0]!, (500 * b) / l)
    // Largest at x = √((L² − a²)/3) from the far end: P·a·(L² − a²)^1.5/(9√3·E·I·L), a the shorter part.
    near(point.spans[0]!.deflectionM!, (500 * a * (l * l - a * a) ** 1.5) / (9 * Math.sqrt(3) * EI * l))
  })
  test('free arm: P·a at the support, P·a²(L + a)/3EI at the tip', () => {
    const tip = beamAnswer(beam({ supportsM: [0, 2], loads: [{ atM: 3, forceN: 90 }] }))
    near(tip.mostMomentNm, 90)
    near(tip.spans.find((s) => s.kind === 'arm')!.deflectionM!, (90 * 1 * (2 + 1)) / (3 * EI))
    near(tip.reactionsN[1]!, 90 * 1.5)
    near(tip.reactionsN[0]!, -45)
  })
  test('uniform with a free arm: most moment R²/2w inside the span, where the shear passes nought', () => {
    const made = beamAnswer(beam({ supportsM: [0, 2.5], uniformNPerM: 100 }))
    near(made.reactionsN[0]!, 120)
    near(made.spans[0]!.momentNm, 120 ** 2 / 200)
    near(made.spans[1]!.momentNm, (100 * 0.25) / 2)
  })
  test('two and three equal spans, uniform: 3/8, 5/4 and 0.4, 1.1 wL; wL²/8 and wL²/10 over the support', () => {
    const two = beamAnswer(beam({ lengthM: 4, supportsM: [0, 2, 4], uniformNPerM: 100 }))
    two.reactionsN.forEach((r, i) => {
      near(r, 200 * [0.375, 1.25, 0.375][i]!)
    })
    near(two.mostMomentNm, 50)
    near(two.spans[0]!.deflectionM!, ((39 + 55 * Math.sqrt(33)) / 65536) * ((100 * 16) / EI))
    const three = beamAnswer(beam({ lengthM: 6, supportsM: [0, 2, 4, 6], uniformNPerM: 100 }))
    three.reactionsN.forEach((r, i) => {
      near(r, 200 * [0.4, 1.1, 1.1, 0.4][i]!)
    })
    near(three.mostMomentNm, 40)
  })
})

/** Moments over the supports of a continuous beam by Clapeyron's three moments, uniform and point loads; spans only. */
function threeMoments(b: Beam): readonly number[] {
  const s = b.supportsM
  const n = s.length
  const spans = s.slice(1).map((x, i) => x - s[i]!)
  const area = (i: number, fromLeft: boolean) => {
    const l = spans[i]!
    return b.loads.reduce(
      (sum, p) => {
        const a = p.atM - s[i]!
        if (a <= 0 || a >= l) return sum
        const c = l - a
        return sum + (fromLeft ? (p.forceN * a * (l * l - a * a)) / l : (p.forceN * c * (l * l - c * c)) / l)
      },
      (b.uniformNPerM * l ** 3) / 4,
    )
  }
  const rows = Array.from({ length: n - 2 }, (_, k) => {
    const row = Array(n - 1).fill(0)
    if (k > 0) row[k - 1] = spans[k]!
    row[k] = 2 * (spans[k]! + spans[k + 1]!)
    if (k < n - 3) row[k + 1] = spans[k + 1]!
    row[n - 2] = area(k, true) + area(k + 1, false)
    return row as number[]
  })
  for (let i = 0; i < n - 2; i++)
    for (let r = i + 1; r < n - 2; r++) {
      const f = rows[r]![i]! / rows[i]![i]!
      for (let c = i; c < n - 1; c++) rows[r]![c]! -= f * rows[i]![c]!
    }
  const m = Array(n - 2).fill(0) as number[]
  for (let i = n - 3; i >= 0; i--) {
    let rest = rows[i]![n - 2]!
    for (let c = i + 1; c < n - 2; c++) rest -= rows[i]![c]! * m[c]!
    m[i] = rest / rows[i]![i]!
  }
  return m
}

describe('properties, over seeded beams', () => {
  const random = seeded(41)
  const many = Array.from({ length: 200 }, () => {
    const supports = [0]
    for (let i = 0; i < 2 + Math.floor(random.next() * 4); i++)
      supports.push(supports[supports.length - 1]! + 0.3 + random.next())
    const lengthM = supports[supports.length - 1]!
    const loads = Array.from({ length: Math.floor(random.next() * 6) }, () => ({
      atM: random.next() * lengthM,
      forceN: 900 * random.next() - 200,
    }))
    return beam({ lengthM, supportsM: supports, loads, uniformNPerM: 80 * random.next() })
  })
  test('reactions sum to the loads, and turn nothing about any point', () => {
    for (const b of many) {
      const { reactionsN } = beamAnswer(b)
      const total = b.loads.reduce((sum, l) => sum + l.forceN, 0) + b.uniformNPerM * b.lengthM
      const scale = 1000 * b.lengthM
      const turning = b.loads.reduce((sum, l) => sum + l.forceN * l.atM, 0) + (b.uniformNPerM * b.lengthM ** 2) / 2
      expect(Math.abs(reactionsN.reduce((a, r) => a + r, 0) - total)).toBeLessThanOrEqual(1e-8 * scale)
      expect(Math.abs(reactionsN.reduce((a, r, i) => a + r * b.supportsM[i]!, 0) - turning)).toBeLessThanOrEqual(1e-8 * scale)
    }
  })
  test("no span has less moment than Clapeyron's three moments give at its supports", () => {
    for (const b of many) {
      const { spans } = beamAnswer(b)
      const over = [0, ...threeMoments(b), 0]
      spans.forEach((span, i) => {
        expect(span.momentNm).toBeGreaterThanOrEqual(Math.max(Math.abs(over[i]!), Math.abs(over[i + 1]!)) - 1e-6)
      })
      const most = Math.max(...over.map(Math.abs))
      const still = spans.filter((s) => Math.abs(s.momentNm - most) < 1e-6 * Math.max(1, most))
      if (b.uniformNPerM === 0 && b.loads.length === 0) expect(still.length).toBe(spans.length)
    }
  })
  test('twice the load is twice the answer, and a stiffer beam gives less', () => {
    for (const b of many.slice(0, 40)) {
      const one = beamAnswer(b)
      const two = beamAnswer({
        ...b,
        uniformNPerM: 2 * b.uniformNPerM,
        loads: b.loads.map((l) => ({ ...l, forceN: 2 * l.forceN })),
      })
      expect(two.mostMomentNm).toBeCloseTo(2 * one.mostMomentNm, 6)
      const stiff = beamAnswer({ ...b, stiffnessNm2: 3 * EI })
      stiff.spans.forEach((s, i) => {
        expect(s.deflectionM!).toBeCloseTo(one.spans[i]!.deflectionM! / 3, 12)
      })
    }
  })
})

test('without deflections the rest is the same', () => {
  const whole = beam({ supportsM: [0, 1.2, 3], loads: [{ atM: 2, forceN: 70 }], uniformNPerM: 9 })
  const bare = beamAnswer({ ...whole, deflections: false })
  expect(bare.spans.map((s) => s.deflectionM)).toEqual([null, null])
  expect({ ...bare, spans: [] }).toEqual({ ...beamAnswer(whole), spans: [] })
})

test('a beam that cannot be judged is a fault: one support, a load outside, no stiffness, not a number', () => {
  for (const bad of [
    { supportsM: [1] },
    { loads: [{ atM: 3.1, forceN: 1 }] },
    { stiffnessNm2: 0 },
    { uniformNPerM: Number.NaN },
    { lengthM: 0 },
    { supportsM: [2, 1] },
  ])
    expect(() => beamAnswer(beam(bad))).toThrow('fit/beam-range')
})
