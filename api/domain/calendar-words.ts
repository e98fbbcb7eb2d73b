/** Short names of the months, January first. Our own: those of a machine change with its version ("Sep", "Sept") and language. */
export const monthWords = [
  'Jan',
  'Feb',
  'Mar',
  'Apr',
  'May',
  'Jun',
  'Jul',
  'Aug',
  'Sep',
  'Oct',
  'Nov',
  'Dec',
] as const

/** Short names of the days of the week, Monday first (ISO 8601). */
export const weekdayWords = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'] as const
