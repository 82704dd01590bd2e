export { type AirBox, airNotAsked, answerRuns } from './answer.ts'
export { type AirInputs, answerAir } from './join.ts'
export { type AirLack, type BoxAir, type BoxRuns, ENDS, type EndRuns } from './runs.ts'
export { type AirWeather, climateForYear, type WeatherFound, type WeatherGiven, type WeatherJob, weatherFor } from './weather.ts'
