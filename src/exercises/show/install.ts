import { installDisplay } from '../../log/display/install-display.js';
import { Feedback } from '../check/feedback.js';
import { Question } from '../question/index.js';
import { feedbackBundle } from './feedback-view.js';
import { questionBundle } from './question-view.js';

installDisplay(Question as unknown as { prototype: Question<never> }, questionBundle);
installDisplay(Feedback, feedbackBundle);
