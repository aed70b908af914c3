/** Progress of long work and its cancelling. Every package may use this one; it uses none. */
package org.holdfast.progress;
