import { atan2, cos, sin } from './functions.ts'
/** A complex number as plain data; loops that run often use Float64Array instead. */
export interface Complex {
  readonly re: number
  readonly im: number
}

export const cx = (re: number, im = 0): Complex => ({ re, im })
export const add = (a: Complex, b: Complex): Complex => ({ re: a.re + b.re, im: a.im + b.im })
export const sub = (a: Complex, b: Complex): Complex => ({ re: a.re - b.re, im: a.im - b.im })
export const mul = (a: Complex, b: Complex): Complex => ({ re: a.re * b.re - a.im * b.im, im: a.re * b.im + a.im * b.re })
export const scale = (a: Complex, k: number): Complex => ({ re: a.re * k, im: a.im * k })
export const conj = (a: Complex): Complex => ({ re: a.re, im: -a.im })
export const abs = (a: Complex): number => Math.hypot(a.re, a.im)
export const angleRad = (a: Complex): number => atan2(a.im, a.re)

export function div(a: Complex, b: Complex): Complex {
  const d = b.re * b.re + b.im * b.im
  return { re: (a.re * b.re + a.im * b.im) / d, im: (a.im * b.re - a.re * b.im) / d }
}

export const polar = (magnitude: number, angle: number): Complex => ({
  re: magnitude * cos(angle),
  im: magnitude * sin(angle),
})
