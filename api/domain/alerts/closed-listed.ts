/** How many days a closed alert is still listed; one whose level is still reached for as long as it is. */
export const closedListedDays = 90
