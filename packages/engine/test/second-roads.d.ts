declare module 'psychrolib' {
  const psychrolib: Readonly<Record<string, (...numbers: readonly number[]) => number>> & { readonly SI: number }
  export default psychrolib
}

declare module 'astronomia' {
  /** The earth's way by VSOP87, all terms. */
  export const planetposition: { readonly Planet: new (series: unknown) => { readonly name: string } }
  /** Radians, astronomical units. */
  export const solar: {
    readonly apparentEquatorialVSOP87: (
      earth: { readonly name: string },
      jde: number,
    ) => { readonly ra: number; readonly dec: number; readonly range: number }
  }
  /** Seconds of sidereal time at Greenwich. */
  export const sidereal: { readonly apparent: (jd: number) => number }
  /** Dynamic less universal time, seconds. */
  export const deltat: { readonly deltaT: (year: number) => number }
  export const eqtime: { readonly e: (jde: number, earth: { readonly name: string }) => number }
  export const julian: { readonly CalendarGregorianToJD: (year: number, month: number, day: number) => number }
}

declare module 'astronomia/data' {
  const data: { readonly earth: unknown }
  export default data
}
