/**
 * What was odd about usable data: a code, how grave it is, a sentence for a person, and where.
 *
 * <p>Findings travel with the result they belong to, are shown and stored; they are not exceptions. Every package may
 * use this one; it uses none.
 */
package org.holdfast.finding;
