/**
 * How a source’s figure came to us. read: in the text itself; reproduced: in a text that retells or reprints it;
 * memory: known in the trade, seen in no text, to be checked before anything hangs on it; practice: common practice, no
 * source; choice: ours.
 */
export type HowRead = 'read' | 'reproduced' | 'memory' | 'practice' | 'choice'
export type Source = {
  readonly title: string
  readonly edition: string
  readonly clause: string
  readonly how: HowRead
}

const source = (title: string, edition: string, clause: string, how: HowRead): Source => ({
  title,
  edition,
  clause,
  how,
})

/** Every document that a formula or a limit of the trade is taken from. Check a figure against the edition in force. */
export const SOURCES = {
  arithmetic: source('Geometry and arithmetic', '', '', 'read'),
  'sp-811': source('NIST Special Publication 811', '2008', 'Appendix B.8', 'read'),
  practice: source('Common practice, no source', '', '', 'practice'),
  'our-choice': source('Our choice', '', '', 'choice'),
  order: source('The order', '', '', 'read'),
  ticket: source('The delivery ticket', '', '', 'read'),

  'c94-98': source('ASTM C94/C94M', '1998', '§10.7', 'reproduced'),
  'c94-13': source(
    'ASTM C94/C94M',
    '2013 to 2020',
    'time limit without revolutions (ASCC position paper 32)',
    'reproduced',
  ),
  'c94-21': source('ASTM C94/C94M', '2021', '§6.1.10, §12.9', 'reproduced'),
  'c94-slump': source('ASTM C94/C94M', '1998 to 2021', 'slump tolerances', 'memory'),
  'aci-117': source('ACI 301 with ACI 117', 'undated retelling', 'slump tolerance', 'reproduced'),
  'c94-air': source('ASTM C94/C94M', 'all editions seen', '§8, ±1.5 points at delivery', 'reproduced'),
  'c94-cold': source('ASTM C94/C94M', '1998 to 2021', 'least concrete temperature by section', 'memory'),
  'c94-site-water': source('ASTM C94/C94M', '1998 to 2021', 'site water, 30 revolutions more', 'memory'),
  'cip-26': source('NRMCA CIP 26', 'undated', 'jobsite addition of water', 'reproduced'),
  'c94-98-retest': source('ASTM C94/C94M', '1998', '§16.6', 'reproduced'),

  c172: source('ASTM C172', 'undated summary', 'sampling', 'reproduced'),
  'c172-portions': source('ASTM C172', 'undated', '15 min between portions', 'memory'),
  c143: source('ASTM C143/C143M', 'undated summary', 'slump', 'reproduced'),
  c1064: source('ASTM C1064/C1064M', 'undated summary', 'temperature', 'reproduced'),
  'c1064-device': source('ASTM C1064/C1064M', 'undated', 'thermometer ±1 °F, report 1 °F', 'memory'),
  c231: source('ASTM C231/C231M', 'undated summary', 'A = A1 − G', 'reproduced'),
  c138: source('ASTM C138/C138M', 'undated summary', 'density, yield, gravimetric air', 'reproduced'),
  c31: source('ASTM C31/C31M', 'undated', '§10.1.2', 'reproduced'),
  'cip-8': source('NRMCA CIP 8', 'undated', 'discrepancies in yield', 'reproduced'),
  'aci-318-accept': source('ACI 318', '2019', '§26.12.3.1', 'reproduced'),
  'aci-318-high': source('ACI 318', '2019', '§26.12.3.1, 0.10 f′c above 5,000 psi', 'memory'),
  'aci-318-rate': source('ACI 318', '2014', 'frequency of tests', 'reproduced'),
  'aci-318-cores': source('ACI 318', '2019', '§26.12.4, cores 85 % and 75 %', 'reproduced'),

  'uno-us': source('Uno, ACI Materials Journal 95', '1998', 'title 95-M34, US form', 'reproduced'),
  'uno-si': source('Uno, ACI Materials Journal 95', '1998', 'title 95-M34, rounded SI form', 'reproduced'),
  menzel: source('Menzel, as in ACI 305R', '1954', 'vapour-pressure form', 'memory'),
  'evaporation-02': source('UFGS 03300N and ACI 305R', 'as reproduced', '0.2 lb/ft²/h', 'reproduced'),
  'evaporation-fhwa': source('FHWA-HRT-05-038', '2005', 'chapter 5, 0.5 kg/m²/h', 'read'),
  'evaporation-silica': source(
    'Silica-fume producers’ slides',
    'undated',
    'chapter 4, half of the usual rate',
    'reproduced',
  ),
  'evaporation-overlay': source('Latex and very low-bleed overlays', 'undated', '0.05 lb/ft²/h', 'memory'),
  'wind-height': source(
    'ACI 305R',
    'as retold in a question and answer',
    'average wind 20 in above the surface',
    'reproduced',
  ),
  'power-law': source('1/7 power law of wind profile', '', '', 'memory'),
  azmet: source(
    'AZMET, University of Arizona',
    'undated',
    'vapour pressure 6.108 exp(17.27 T/(237.3 + T))',
    'read',
  ),
  nws: source('US National Weather Service', 'undated', '6.11 · 10^(7.5 T/(237.3 + T))', 'memory'),
  metar: source(
    'WMO FM-15 (METAR), as in the FAA’s key and AFMAN 15-111',
    '2019',
    'report and remarks',
    'read',
  ),

  '306r-88': source('ACI 306R', '1988', 'table and definition as reprinted', 'reproduced'),
  '306r-88-thick': source('ACI 306R', '1988', 'rows above 36 in', 'memory'),
  '306r-10': source('ACI 306R', '2010 and 2016', 'definition of cold weather', 'reproduced'),
  'ufgs-03301a': source('UFGS 03301A', 'undated', 'placing temperatures', 'reproduced'),
  'ufgs-03300n': source('UFGS 03300N', 'undated', 'cold and hot weather', 'reproduced'),
  '301-20': source('ACI 301-20 and ACI 305.1-14', '2020', 'not above 95 °F at discharge', 'reproduced'),
  'hot-older': source('Older specifications', 'before 2010', 'not above 90 °F', 'reproduced'),
  'freeze-once': source(
    'PCA Design and Control, chapter 14',
    'undated',
    '500 psi before one freeze',
    'reproduced',
  ),
  'freeze-cycles': source(
    'ACI 306R-88 and ACI 308R-01',
    '1988',
    '3,500 psi before cycles while wet',
    'reproduced',
  ),

  'aci-211': source('ACI 211.1', 'as reproduced in a course', 'total air', 'reproduced'),
  'ufgs-03311': source('UFGS 03311', 'undated', 'Table 3 and 2.2 (c)', 'reproduced'),
  'aci-318-19': source('ACI 318', '2014 and 2019', 'Table 19.3.2.1', 'memory'),
  'pca-11-3': source('PCA EB001 Table 11-3', 'after an older ACI 318', '', 'reproduced'),
  'pca-9-1': source('PCA Design and Control', 'undated', 'Table 9-1', 'reproduced'),
  'air-over-5000': source(
    'Project specification and trade answer',
    'undated',
    '1 point less above 5,000 psi',
    'reproduced',
  ),
  'aci-318-f3': source('ACI 318', '2019', 'class F3 cementitious limits', 'reproduced'),
  'aci-318-f3-sum': source('ACI 318', '2019', 'class F3, sums of cementitious materials', 'memory'),
  'irc-r402-2': source('International Residential Code', '2009 and 2012', 'Table R402.2', 'reproduced'),

  '302.1r-96': source('ACI 302.1R', '1996', 'joint spacing 24–36 thicknesses, 18 ft', 'reproduced'),
  'joint-15': source('Common trade cap of 15 ft', '', '', 'memory'),
  'csa-a23.1-94': source('CSA A23.1', '1994', '§20.2', 'reproduced'),
  'pca-joints': source('PCA table in Beall, Masonry and Concrete', '2004', 'Fig. 2-15', 'read'),
  irmca: source('Illinois Ready Mixed Concrete Association', 'undated', 'pavement joints', 'read'),
  'ufgs-walks': source('UFGS 03300N', 'undated', 'walks and curbs', 'reproduced'),
  'joint-aspect': source(
    'Basham, rules for contraction joints',
    'undated',
    'aspect 1.5, better 1.25',
    'reproduced',
  ),
  'tm-5-809-1': source('TM 5-809-1 / AFM 88-3', 'undated', 'chapter 15', 'reproduced'),
  'faq-915': source('ACI FAQ 915', '2015', 'depth t/4, saw timing (ACI 302.1R-15)', 'read'),
  'early-entry': source('Early-entry sawing', 'undated', 'at least 1 in deep', 'memory'),
  'c8-exam': source(
    'Contractor licence exam notes',
    'undated',
    'walk joints: width, not over 6 ft',
    'reproduced',
  ),

  c1074: source('ASTM C1074', 'undated', 'maturity', 'reproduced'),
  'ti-b-103': source(
    'TI-B 103, Danish Technological Institute',
    '1994',
    'H = exp[E/R (1/293 − 1/(273 + T))]',
    'read',
  ),
  'set-time': source(
    'Setting time table, CE 584, Penn State',
    'undated',
    'hours by temperature',
    'reproduced',
  ),
  'finish-halving': source(
    'Trade article on hot and cold concreting',
    '2020',
    '20 °F hotter halves the time',
    'reproduced',
  ),

  'gallon-rule': source(
    'Concrete Construction, adjusting slump in the field',
    'undated',
    '1 gal per yd³',
    'reproduced',
  ),
  'gallon-rule-air': source(
    'Concrete Construction, adding water',
    'undated',
    '1 gal per yd³ with air',
    'reproduced',
  ),
  'litre-rule': source('Metric rules of thumb', 'undated', '4 L per m³', 'reproduced'),
  'ten-pound-rule': source('ACI 211 rule of 10 lb per yd³', 'undated', '1 in of slump', 'memory'),
  'water-trade': source(
    'Water at 8.34 lb/gal',
    'common practice',
    'also 8.33, 8⅓ and 8.345 are printed',
    'practice',
  ),
  'moisture-course': source('Concrete school, water and cement', 'undated', 'free moisture', 'read'),

  beall: source('Beall, Masonry and Concrete', '2004', '§3.1.1', 'read'),
  estimator: source('National Home Improvement Estimator', '2018', 'p. 42', 'read'),
  en5466: source('US Army correspondence course EN5466A', 'undated', '10 % up to 200 yd³', 'read'),
  'en5466-over': source('US Army correspondence course EN5466A', 'undated', '5 % above 200 yd³', 'memory'),
  bags: source('General estimating references', 'undated', 'yield of bagged mix', 'reproduced'),
  'supplier-terms': source('The supplier’s own terms', '', '', 'read'),
  'aci-224r': source('ACI 224R', 'as reproduced in a design text', 'Table 4.1', 'reproduced'),
  osha: source('29 CFR 1926.1153', '2016', 'respirable crystalline silica', 'reproduced'),
} as const satisfies Record<string, Source>

export type SourceId = keyof typeof SOURCES

/**
 * A source in one line, as a page prints it. Units: none. Fails: never. Source: the table above.
 */
export const showSource = (id: SourceId): string => {
  const { title, edition, clause, how } = SOURCES[id] as Source
  const where = [title, edition, clause].filter((part) => part !== '').join(', ')
  return how === 'memory' ? `${where} (from memory: check the text)` : where
}
