/** Words that lead up to the name of a part of the site. */
export const AREA_BEFORE = /^(?:on|off|the|over|in|at|el|la|en|de|del|a|on the|off the)$/
