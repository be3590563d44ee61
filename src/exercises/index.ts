import './show/install.js';

export { plainName, seedCode, studentSeed } from './seed/index.js';
export * from './tolerance/index.js';
export {
  question,
  Question,
  quantities,
  type ExpectedLine,
  type Figures,
  type FigureValue,
  type GivenFigure,
  type GivenTable,
  type Mistaken,
  type LineInWords,
  type LineSlip,
  type Quantity,
  type QuantityName,
  type QuestionFields,
  type QuestionLine,
} from './question/index.js';
export * from './check/index.js';
export * from './kinds/index.js';
export { diagnose, sightMistakes, type Diagnosis, type SightMistake } from './slips/index.js';
export { EXERCISE_YEAR } from './situation/index.js';
export { answerLines } from './show/answer-lines.js';
