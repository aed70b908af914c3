package org.holdfast.architecture.trespass.store;

import java.sql.Connection;

/** Allowed: the store speaks SQL. */
public record MayAskDatabase(Connection connection) {}
