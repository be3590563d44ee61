import { DISPLAY, type MimeBundle } from '../../views/index.js';
import { Feedback } from '../check/feedback.js';
import { Question } from '../question/index.js';
import { feedbackBundle } from './feedback-view.js';
import { questionBundle } from './question-view.js';

/** Gives all values of a class a display, out of sight of loops over their fields. */
function install<T>(target: { readonly prototype: T }, bundle: (value: T) => MimeBundle): void {
  Object.defineProperty(target.prototype, DISPLAY, {
    configurable: true,
    enumerable: false,
    value(this: T): MimeBundle {
      return bundle(this);
    },
  });
}

install(Question as unknown as { prototype: Question<never> }, questionBundle);
install(Feedback, feedbackBundle);
