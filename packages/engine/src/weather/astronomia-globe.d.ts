/** What the tests use of it. Angles in radians, north and east positive; distance in km. */
declare module 'astronomia' {
  export const globe: {
    readonly Coord: new (lat: number, lon: number) => { readonly lat: number; readonly lon: number }
    readonly Earth76: {
      distance(a: { readonly lat: number; readonly lon: number }, b: { readonly lat: number; readonly lon: number }): number
    }
  }
}
