/** What an odd reading can come from. */
export const causes = ['ground', 'sensor', 'logger', 'radio', 'weather'] as const
export type Cause = (typeof causes)[number]

/** Each cause as it is meant, for whoever weighs the evidence. */
export const causeMeans: Readonly<Record<Cause, string>> = {
  ground: 'The ground, the water or the structure did what was read',
  sensor: 'The transducer, its mounting or mark, its cable, wiring or calibration',
  logger: 'The logger: its clock, its cells, its channels; of a reading by hand, what was written down',
  radio: 'The link: readings are missing or late, those that came are as they were taken',
  weather: 'Temperature, sun, air pressure or rain acts on the measuring, not on what is measured',
}
