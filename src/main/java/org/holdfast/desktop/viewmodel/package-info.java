/**
 * What the window shows, in words, numbers and pure geometry, and what it can be told to do. Observable, but without a
 * node: every class here can be tested without a toolkit. Lengths mm, places in patient space; pixels are device pixels
 * where a name does not say otherwise. Uses {@code state} and the toolkit-free classes of {@code render}.
 */
package org.holdfast.desktop.viewmodel;
